import type { OrderTemplate } from './order-template.ts'
import type { Confidence, DrainKind } from './words.ts'

/** Where a value of the standard orders comes from. */
export type OrderSource = { source: string; confidence: Confidence }
type Standard = { orders: OrderTemplate; sources: Partial<Record<keyof OrderTemplate, OrderSource>> }

const local = (source: string): OrderSource => ({ source, confidence: 'local choice' })
const practice = (source: string): OrderSource => ({ source, confidence: 'common practice, no source' })
const published = (source: string): OrderSource => ({ source, confidence: 'published' })

const everyKind: Standard['sources'] = {
  logEveryHours: local('a daily total; no interval was found in print'),
  dressingEveryHours: published(
    'drain leaflets (Utah IR; UT Southwestern): every two to three days, or when wet or soiled',
  ),
  dressingType: local('what the ward used goes on at home'),
  vessel: local('look at what the patient takes home'),
  markMl: local('read it off the vessel'),
}
const legBag = published('leg bags of 500 to 750 mL (North Cumbria leaflet)')
const noFlush = published('flush only if prone to block (Northern Care Alliance leaflet)')
const bag = { vessel: 'bag', bagCapacityMl: 600, markMl: null } as const
const kept = { logEveryHours: 24, dressingEveryHours: 72, dressingType: 'gauze and film' } as const
const daily = { flush: { volumeMl: 10, everyHours: 24 }, flushAt: ['09:00'] }
const unflushed = { flush: null, flushAt: null }

/**
 * What is offered for each kind until the clinic has set its own: a start, each value with its source, to be
 * looked at for the one patient. Nothing here is an order.
 */
export const standardOrders: Readonly<Record<DrainKind, Standard>> = {
  nephrostomy: {
    orders: { ...kept, ...bag, ...unflushed, exchangeEveryDays: 90, removalPlan: null },
    sources: {
      ...everyKind,
      dressingEveryHours: published('every 3 days (Kaiser nephrostomy leaflet)'),
      bagCapacityMl: legBag,
      flush: noFlush,
      exchangeEveryDays: published('changing every 3 months (The Christie NHS)'),
    },
  },
  nephroureteral: {
    orders: { ...kept, ...bag, ...unflushed, exchangeEveryDays: 90, removalPlan: null },
    sources: {
      ...everyKind,
      bagCapacityMl: legBag,
      flush: local('as for a nephrostomy'),
      exchangeEveryDays: local('as for a nephrostomy'),
    },
  },
  biliary: {
    orders: { ...kept, ...bag, ...daily, exchangeEveryDays: 70, removalPlan: null },
    sources: {
      ...everyKind,
      bagCapacityMl: local('a bag as for the kidney'),
      flush: practice('5 to 10 mL once or twice a day'),
      flushAt: local('one time of day'),
      exchangeEveryDays: published('every 2 to 3 months (rriavascularir.com)'),
    },
  },
  cholecystostomy: {
    orders: {
      ...kept,
      ...bag,
      ...daily,
      exchangeEveryDays: null,
      removalPlan: 'After 4 to 6 weeks, once a contrast study shows that the cystic duct is open',
    },
    sources: {
      ...everyKind,
      bagCapacityMl: local('a bag as for the kidney'),
      flush: practice('5 to 10 mL once or twice a day'),
      flushAt: local('one time of day'),
      exchangeEveryDays: local('set it where the tube is to stay: leaflets say 6 to 12 weeks'),
      removalPlan: { source: 'WSES 2016/2020', confidence: 'from memory' },
    },
  },
  collection: {
    orders: {
      ...kept,
      ...bag,
      ...daily,
      exchangeEveryDays: null,
      removalPlan: 'No fever, no pain, and under 10 mL a day on 2 days in a row',
    },
    sources: {
      ...everyKind,
      dressingEveryHours: published('every 3 days (ECU abscess leaflet)'),
      bagCapacityMl: local('a bag as for the kidney'),
      flush: published('5 to 10 mL once daily (IR drain leaflet, Denver)'),
      flushAt: local('one time of day'),
      removalPlan: published('Abdom Radiol 2022, 10.1007/s00261-022-03460-1'),
    },
  },
  pleural: {
    orders: {
      ...kept,
      vessel: 'bottle',
      bagCapacityMl: 1000,
      markMl: null,
      ...unflushed,
      exchangeEveryDays: null,
      removalPlan: 'Under 50 mL at 3 drainages in a row',
    },
    sources: {
      ...everyKind,
      bagCapacityMl: practice('at most 1 L at one home drainage'),
      flush: local('not flushed at home'),
      removalPlan: { source: 'BTS and AMPLE trials', confidence: 'from memory' },
    },
  },
  bulb: {
    orders: {
      ...kept,
      vessel: 'bulb',
      bagCapacityMl: 100,
      markMl: 25,
      ...unflushed,
      exchangeEveryDays: null,
      removalPlan: 'Under 30 mL in 24 h on 2 days in a row',
    },
    sources: {
      ...everyKind,
      bagCapacityMl: published('bulb marks at 25, 50, 75 and 100 mL (Baldwin leaflet)'),
      markMl: published('bulb marks at 25, 50, 75 and 100 mL (Baldwin leaflet)'),
      flush: local('stripped, not flushed'),
      removalPlan: published('less than 30 cc in 24 h for two days (drkoneru.com; memorialclearlake.com)'),
    },
  },
}
