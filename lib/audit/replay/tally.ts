import { FindingCode, type Urgency } from '../../domain/words.ts'

export type Counts = { inForce: number; draft: number; gained: number; lost: number }
type Standing = Exclude<Urgency, 'none'>

/** What is added up over the patients of one part of the period. */
export type Tally = {
  patients: number
  days: number
  flags: Counts
  byCode: Record<string, Counts>
  byUrgency: Record<Standing, Counts>
  /** Times that a clinical row opened: flags of a patient that open at one moment open one row. */
  openings: { inForce: number; draft: number }
  moved: { earlier: number; later: number; more: number; less: number }
}

const none = (): Counts => ({ inForce: 0, draft: 0, gained: 0, lost: 0 })

export const emptyTally = (): Tally => ({
  ...{ patients: 0, days: 0, flags: none() },
  byCode: {},
  byUrgency: { 'at-once': none(), 'within-1h': none(), 'within-24h': none(), 'within-3d': none() },
  openings: { inForce: 0, draft: 0 },
  moved: { earlier: 0, later: 0, more: 0, less: 0 },
})

export function countsOf(tally: Tally, code: string): Counts {
  const known = tally.byCode[code] ?? none()
  tally.byCode[code] = known
  return known
}

/** Adds what one tally holds to another. */
export function add(to: Tally, from: Tally): void {
  to.patients += from.patients
  to.days += from.days
  addAll(to.flags, from.flags)
  for (const [code, counts] of Object.entries(from.byCode)) addAll(countsOf(to, code), counts)
  for (const [urgency, counts] of Object.entries(from.byUrgency))
    addAll(to.byUrgency[urgency as Standing], counts)
  addAll(to.openings, from.openings)
  addAll(to.moved, from.moved)
}

function addAll<T extends Record<string, number>>(to: T, from: T): void {
  for (const key of Object.keys(from) as (keyof T)[])
    to[key] = ((to[key] as number) + (from[key] as number)) as T[keyof T]
}

/** Findings in the order of their list, those that were counted. */
export const codesOf = (tally: Tally): FindingCode[] =>
  FindingCode.options.filter((code) => tally.byCode[code] !== undefined)
