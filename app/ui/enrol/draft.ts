import { capital } from '@/lib/domain/capital.ts'
import type { Enrolment, NewDrain } from '@/lib/domain/enrolment.ts'
import { isUrinary } from '@/lib/domain/kinds.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { Drainage, DrainKind, Side } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from '../parts/number-text.ts'
import { type OrdersDraft, ordersFaults, toOrders, usualDraft } from '../parts/orders-draft.ts'

/** One drain while it is filled in. `ordersTouched`: its orders are no longer those that the kind suggests. */
export type DrainDraft = {
  key: number
  kind: DrainKind
  side: Side | ''
  /** Empty: the name that follows from kind and side. */
  label: string
  placedAt: string
  frenchSize: string
  drainage: Drainage
  onlyKidney: boolean
  usualMlPerDay: string
  markMl: string
  orders: OrdersDraft
  ordersTouched: boolean
}

export type EnrolDraft = {
  name: string
  birthDate: string
  recordNumber: string
  phone: string
  language: string
  interpreter: boolean
  timeZone: string
  drains: DrainDraft[]
}

export const newDrain = (key: number, now: number, zone: string): DrainDraft => ({
  key,
  kind: 'nephrostomy',
  side: '',
  label: '',
  placedAt: inputTime(now, zone),
  frenchSize: '',
  drainage: 'external',
  onlyKidney: false,
  usualMlPerDay: '',
  markMl: '',
  orders: usualDraft('nephrostomy'),
  ordersTouched: false,
})

export const newEnrolment = (now: number, zone: string): EnrolDraft => ({
  name: '',
  birthDate: '',
  recordNumber: '',
  phone: '',
  language: '',
  interpreter: false,
  timeZone: zone,
  drains: [newDrain(1, now, zone)],
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

/** Another kind brings its own suggestions, unless the orders were changed by hand. */
export const withKind = (drain: DrainDraft, kind: DrainKind): DrainDraft => ({
  ...drain,
  kind,
  orders: drain.ordersTouched ? drain.orders : usualDraft(kind),
  onlyKidney: isUrinary(kind) && drain.onlyKidney,
})

/** What is missing or wrong before it is sent, under the paths that the door uses too. */
export function enrolFaults(draft: EnrolDraft): Record<string, string> {
  const faults: Record<string, string> = {}
  if (!draft.name.trim()) faults.name = 'The full name.'
  if (!/^\d{4}-\d{2}-\d{2}$/.test(draft.birthDate)) faults.birthDate = 'The birth date.'
  if (!draft.recordNumber.trim()) faults.recordNumber = 'The record number of the chart.'
  draft.drains.forEach((drain, i) => {
    const at = `drains[${i}]`
    if (instantOf(drain.placedAt, draft.timeZone) === null) faults[`${at}.placedAt`] = 'A day and a time.'
    if (!isWithin(drain.frenchSize, 3, 40)) faults[`${at}.frenchSize`] = 'From 3 to 40 F.'
    if (!isWithin(drain.usualMlPerDay, 0, 100_000))
      faults[`${at}.usualMlPerDay`] = 'A number of mL, or empty.'
    if (!isWithin(drain.markMl, 1, 100_000)) faults[`${at}.markMl`] = 'A number of mL, or empty.'
    for (const [name, text] of Object.entries(ordersFaults(drain.orders)))
      faults[`${at}.orders.${name}`] = text
  })
  return faults
}

/** The enrolment as the door takes it. */
export function toEnrolment(draft: EnrolDraft): Enrolment {
  return {
    name: draft.name.trim(),
    birthDate: draft.birthDate,
    recordNumber: draft.recordNumber.trim(),
    phone: draft.phone.trim() || null,
    timeZone: draft.timeZone,
    language: draft.language.trim() || null,
    interpreter: draft.interpreter,
    drains: draft.drains.map((drain) => toDrain(drain, draft.timeZone)),
  }
}

function toDrain(drain: DrainDraft, zone: string): NewDrain {
  return {
    kind: drain.kind,
    label: drain.label.trim() || suggestedLabel(drain.kind, drain.side),
    ...(drain.side ? { side: drain.side } : {}),
    placedAt: instantOf(drain.placedAt, zone) ?? drain.placedAt,
    frenchSize: numberOf(drain.frenchSize),
    drainage: drain.drainage,
    ...(drain.onlyKidney ? { onlyKidney: true } : {}),
    usualMlPerDay: numberOf(drain.usualMlPerDay),
    markMl: numberOf(drain.markMl),
    ...toOrders(drain.orders),
  }
}
