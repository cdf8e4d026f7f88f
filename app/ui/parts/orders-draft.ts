import type { OrderDetails } from '@/lib/domain/order-details.ts'
import type { OrderTemplate } from '@/lib/domain/order-template.ts'
import type { Drain } from '@/lib/domain/record.ts'
import type { Vessel } from '@/lib/domain/vessel.ts'
import { isWithin, numberOf } from './number-text.ts'

/** The orders of one drain while they are filled in. What is empty is not ordered, or not known. */
export type OrdersDraft = {
  logEveryHours: string
  flushMl: string
  flushEveryHours: string
  /** Times of day, with commas between. */
  flushAt: string
  dressingEveryHours: string
  dressingType: string
  exchangeEveryDays: string
  removalPlan: string
  vessel: Vessel | ''
  bagCapacityMl: string
  markMl: string
}

const text = (value: number | null | undefined) => (value == null ? '' : String(value))

/** The orders of a template, or those in force for a drain, to be changed. */
export function draftOfTemplate(orders: OrderTemplate): OrdersDraft {
  return {
    logEveryHours: String(orders.logEveryHours),
    flushMl: text(orders.flush?.volumeMl),
    flushEveryHours: text(orders.flush?.everyHours),
    flushAt: orders.flushAt?.join(', ') ?? '',
    dressingEveryHours: String(orders.dressingEveryHours),
    dressingType: orders.dressingType ?? '',
    exchangeEveryDays: text(orders.exchangeEveryDays),
    removalPlan: orders.removalPlan ?? '',
    vessel: orders.vessel ?? '',
    bagCapacityMl: text(orders.bagCapacityMl),
    markMl: text(orders.markMl),
  }
}

/** The orders in force, to be changed; `details` is what stands beside what the rules read. */
export function draftOfOrders(
  { plan, bagCapacityMl, markMl }: Pick<Drain, 'plan' | 'bagCapacityMl' | 'markMl'>,
  details: OrderDetails = {},
): OrdersDraft {
  const { overrides: _, ...orders } = plan
  return draftOfTemplate({ ...orders, ...details, bagCapacityMl, markMl })
}

export type OrdersFaults = Partial<Record<keyof OrdersDraft, string>>

const timesOf = (typed: string): string[] =>
  typed
    .split(/[,;\s]+/)
    .filter((part) => part !== '')
    .map((part) => part.replace(/^(\d):/, '0$1:'))

const isTime = (part: string) => /^([01]\d|2[0-3]):[0-5]\d$/.test(part)

export function ordersFaults(draft: OrdersDraft): OrdersFaults {
  const faults: OrdersFaults = {}
  const need = (name: keyof OrdersDraft, low: number, high: number, unit: string, isNeeded: boolean) => {
    if (draft[name].trim() === '' ? isNeeded : !isWithin(draft[name], low, high))
      faults[name] = `From ${low} to ${high} ${unit}.`
  }
  const hasFlush = draft.flushMl.trim() !== '' || draft.flushEveryHours.trim() !== ''
  need('logEveryHours', 1, 8784, 'hours', true)
  need('dressingEveryHours', 1, 8784, 'hours', true)
  need('flushMl', 0, 1000, 'mL', hasFlush)
  need('flushEveryHours', 1, 8784, 'hours', hasFlush)
  need('exchangeEveryDays', 1, 3660, 'days', false)
  need('bagCapacityMl', 1, 100_000, 'mL', false)
  need('markMl', 1, 100_000, 'mL', false)
  const times = timesOf(draft.flushAt)
  if (!times.every(isTime) || times.length > 12) faults.flushAt = 'Times of day such as 09:00, 21:00.'
  else if (times.length > 0 && !hasFlush) faults.flushAt = 'Times without a flush: fill in its volume.'
  return faults
}

/** Where a form shows what a door found wrong with an order, by the end of the door's own path. */
const shownAt: readonly [door: RegExp, field: keyof OrdersDraft][] = [
  [/flush(\.volumeMl)?$/, 'flushMl'],
  [/flush\.everyHours$/, 'flushEveryHours'],
  [/flushAt(\[\d+\])?$/, 'flushAt'],
  ...(
    [
      'logEveryHours',
      'dressingEveryHours',
      'dressingType',
      'exchangeEveryDays',
      'removalPlan',
      'vessel',
      'bagCapacityMl',
      'markMl',
    ] as const
  ).map((name): [RegExp, keyof OrdersDraft] => [new RegExp(`${name}$`), name]),
]

/** The field of the form for a field that a door names; undefined where it is none of the orders'. */
export const ordersFieldOf = (doorField: string): keyof OrdersDraft | undefined =>
  shownAt.find(([pattern]) => pattern.test(doorField))?.[1]

/** The orders as a template of a kind has them. */
export function toTemplate(draft: OrdersDraft): OrderTemplate {
  const volumeMl = numberOf(draft.flushMl)
  const everyHours = numberOf(draft.flushEveryHours)
  const flushAt = timesOf(draft.flushAt)
  return {
    logEveryHours: numberOf(draft.logEveryHours) ?? Number.NaN,
    dressingEveryHours: numberOf(draft.dressingEveryHours) ?? Number.NaN,
    flush: volumeMl === null || everyHours === null ? null : { volumeMl, everyHours },
    exchangeEveryDays: numberOf(draft.exchangeEveryDays),
    flushAt: flushAt.length > 0 ? flushAt : null,
    dressingType: draft.dressingType.trim() || null,
    removalPlan: draft.removalPlan.trim() || null,
    vessel: draft.vessel || null,
    bagCapacityMl: numberOf(draft.bagCapacityMl),
    markMl: numberOf(draft.markMl),
  }
}

/** Of some orders only those that were changed: what another has ordered meanwhile stays, field by field. */
export function changedOrders(draft: OrdersDraft, before: OrdersDraft): Partial<OrderTemplate> {
  const was = toTemplate(before)
  const isOther = ([name, value]: [string, unknown]) =>
    JSON.stringify(value) !== JSON.stringify(was[name as keyof OrderTemplate])
  return Object.fromEntries(Object.entries(toTemplate(draft)).filter(isOther))
}

/** The orders as the doors of enrolment take them: what the rules read in `plan`, the rest beside it. */
export function toOrders(draft: OrdersDraft) {
  const { logEveryHours, dressingEveryHours, flush, exchangeEveryDays, ...rest } = toTemplate(draft)
  return { ...rest, plan: { logEveryHours, dressingEveryHours, flush, exchangeEveryDays } }
}
