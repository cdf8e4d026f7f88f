import { type Urgency, urgencyRank } from '../domain/words.ts'
import type { WorklistRow } from '../domain/worklist.ts'

/** Days after placement in which what is due counts as clinical. */
const EARLY_MS = 7 * 86_400_000

/** Past its act by. */
export const isOverdue = (actBy: string | null, now: string): boolean =>
  actBy !== null && Date.parse(actBy) < Date.parse(now)

type Row = Pick<WorklistRow, 'patientId' | 'urgency' | 'actBy' | 'since' | 'overdue' | 'part'>

/** Where a row sorts: a row past its act by with the tier above, yet never into at-once. */
export function tierOf({ urgency, overdue }: Pick<Row, 'urgency' | 'overdue'>): number {
  const rank = urgencyRank[urgency]
  return overdue && rank > 0 ? Math.max(rank, Math.min(rank + 1, urgencyRank['within-1h'])) : rank
}

const time = (instant: string | null) => (instant === null ? Number.POSITIVE_INFINITY : Date.parse(instant))
const byTime = (a: string | null, b: string | null) => (time(a) === time(b) ? 0 : time(a) < time(b) ? -1 : 1)

const partRank: Readonly<Record<WorklistRow['part'], number>> = { clinical: 0, 'in-hospital': 1, upkeep: 2 }

/**
 * The order of the worklist: the clinical part first, in hospital next, upkeep last; then urgency, act by, since, patient id. Total: two rows
 * never change places between two readings.
 */
export const compareRows = (a: Row, b: Row): number =>
  partRank[a.part] - partRank[b.part] ||
  tierOf(b) - tierOf(a) ||
  byTime(a.actBy, b.actBy) ||
  byTime(a.since, b.since) ||
  (a.patientId < b.patientId ? -1 : a.patientId > b.patientId ? 1 : 0)

type Pressing = { urgency: Urgency; actBy: string; since: string; code: string }

/** The order of a row's flags: the most pressing first. */
export const compareFlags = (a: Pressing, b: Pressing): number =>
  urgencyRank[b.urgency] - urgencyRank[a.urgency] || byTime(a.actBy, b.actBy) || a.code.localeCompare(b.code)

type PartInput = {
  flags: readonly { nature: 'clinical' | 'upkeep'; drain: string | null }[]
  drains: readonly { id: string; placedAt: string }[]
  onlyKidney: boolean
  now: string
}

/**
 * The part of the worklist in which a row stands. Upkeep joins the clinical part in the first 7 days after
 * placement, for an only kidney, and while a clinical flag stands; so does a promised call, which has no flag.
 */
export function partOf({ flags, drains, onlyKidney, now }: PartInput): WorklistRow['part'] {
  if (flags.length === 0 || onlyKidney || flags.some(({ nature }) => nature === 'clinical')) return 'clinical'
  const early = drains
    .filter(({ placedAt }) => Date.parse(now) - Date.parse(placedAt) < EARLY_MS)
    .map(({ id }) => id)
  const isEarly = flags.some(({ drain }) => (drain === null ? early.length > 0 : early.includes(drain)))
  return isEarly ? 'clinical' : 'upkeep'
}
