import { capital } from '@/lib/domain/capital.ts'
import type { NewDrain } from '@/lib/domain/enrolment.ts'
import { isBiliary, isUrinary } from '@/lib/domain/kinds.ts'
import { instantOf } from '@/lib/domain/local-time.ts'
import type { OrderTemplate } from '@/lib/domain/order-template.ts'
import type { Appearance, Drainage, DrainKind, Side } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from '../parts/number-text.ts'
import { draftOfTemplate, type OrdersDraft, ordersFaults, toOrders } from '../parts/orders-draft.ts'

/** What the clinic offers for each kind. */
export type Offered = Readonly<Record<DrainKind, OrderTemplate>>

/** One drain while it is filled in. `ordersTouched`: its orders are no longer those that the kind suggests. */
export type DrainDraft = {
  key: number
  kind: DrainKind
  side: Side | ''
  /** Empty: the name that follows from kind and side. */
  label: string
  placedAt: string
  frenchSize: string
  lengthMarkCm: string
  drainage: Drainage
  onlyKidney: boolean
  usualMlPerDay: string
  usualAppearance: Appearance | ''
  /** Clinic time. */
  exchangeBookedFor: string
  orders: OrdersDraft
  ordersTouched: boolean
}

export const newDrain = (key: number, offered: Offered, kind: DrainKind = 'nephrostomy'): DrainDraft => ({
  key,
  kind,
  side: '',
  label: '',
  placedAt: '',
  frenchSize: '',
  lengthMarkCm: '',
  drainage: 'external',
  onlyKidney: false,
  usualMlPerDay: '',
  usualAppearance: '',
  exchangeBookedFor: '',
  orders: draftOfTemplate(offered[kind]),
  ordersTouched: false,
})

/** What most people call a drain of this kind. */
const plainNames: Readonly<Record<DrainKind, string>> = {
  nephrostomy: 'kidney',
  nephroureteral: 'kidney',
  biliary: 'bile duct',
  cholecystostomy: 'gallbladder',
  collection: 'abscess',
  pleural: 'chest',
  bulb: 'wound',
}

/** The plain name that follows from kind and side. @example suggestedLabel('nephrostomy', 'left') // 'Left kidney' */
export function suggestedLabel(kind: DrainKind, side: Side | ''): string {
  return capital(side ? `${side} ${plainNames[kind]}` : plainNames[kind])
}

export const labelOf = ({ label, kind, side }: DrainDraft): string =>
  label.trim() || suggestedLabel(kind, side)

/** Whether a kind may go inside as well as outside. */
export const mayGoInside = (kind: DrainKind): boolean => kind === 'nephroureteral' || kind === 'biliary'
export const isExchanged = (kind: DrainKind): boolean => isUrinary(kind) || isBiliary(kind)

/** Another kind brings its own suggestions, unless the orders were changed by hand. */
export const withKind = (drain: DrainDraft, kind: DrainKind, offered: Offered): DrainDraft => ({
  ...drain,
  kind,
  orders: drain.ordersTouched ? drain.orders : draftOfTemplate(offered[kind]),
  onlyKidney: isUrinary(kind) && drain.onlyKidney,
  drainage: mayGoInside(kind) ? drain.drainage : 'external',
  exchangeBookedFor: isExchanged(kind) ? drain.exchangeBookedFor : '',
})

type Zones = { patient: string; clinic: string }

/** What is missing or wrong with one drain, by the names below the door's path of it. */
export function drainFaults(drain: DrainDraft, zones: Zones, now: number): Record<string, string> {
  const faults: Record<string, string> = {}
  const placed = instantOf(drain.placedAt, zones.patient)
  if (placed === null) faults.placedAt = 'A day and a time.'
  else if (Date.parse(placed) > now) faults.placedAt = 'Not in the future.'
  if (!isWithin(drain.frenchSize, 3, 40)) faults.frenchSize = 'From 3 to 40 Fr.'
  if (!isWithin(drain.lengthMarkCm, 0, 100)) faults.lengthMarkCm = 'From 0 to 100 cm.'
  if (!isWithin(drain.usualMlPerDay, 0, 100_000)) faults.usualMlPerDay = 'A number of mL, or empty.'
  if (drain.exchangeBookedFor) {
    const booked = instantOf(drain.exchangeBookedFor, zones.clinic)
    if (booked === null || Date.parse(booked) <= now) faults.exchangeBookedFor = 'A day and a time ahead.'
  }
  for (const [name, text] of Object.entries(ordersFaults(drain.orders))) faults[`orders.${name}`] = text
  return faults
}

/** The drain as the door takes it. */
export function toDrain(drain: DrainDraft, zones: Zones): NewDrain {
  return {
    kind: drain.kind,
    label: labelOf(drain),
    side: drain.side || null,
    placedAt: instantOf(drain.placedAt, zones.patient) ?? drain.placedAt,
    frenchSize: numberOf(drain.frenchSize),
    lengthMarkCm: numberOf(drain.lengthMarkCm),
    drainage: drain.drainage,
    ...(drain.onlyKidney ? { onlyKidney: true } : {}),
    usualMlPerDay: numberOf(drain.usualMlPerDay),
    usualAppearance: drain.usualAppearance || null,
    exchangeBookedFor: drain.exchangeBookedFor
      ? (instantOf(drain.exchangeBookedFor, zones.clinic) ?? drain.exchangeBookedFor)
      : null,
    ...toOrders(drain.orders),
  }
}
