import type { ReplayPart, ReplayResult } from '../../domain/replay.ts'
import { median } from '../../rules/statistics/median.ts'
import type { JudgedFlag, MetEvent, Outcome } from './outcome.ts'
import { type Compared, compared } from './resample.ts'
import { add, codesOf, emptyTally, type Tally } from './tally.ts'

/** Patients that differ whose flags are kept, and examples of what the replay has otherwise than it happened. */
export const MOST_PATIENTS = 500
const EXAMPLES = 20

type Differing = Pick<Outcome, 'patientId' | 'weight'> & { differs: NonNullable<Outcome['differs']> }

/** What has been told of the patients so far: sums, and of the few that matter one by one, they themselves. */
export type Sums = {
  tallies: [Tally, Tally]
  /** Patients who were followed in either division. */
  patients: number
  judged: JudgedFlag[][]
  events: MetEvent[][]
  differ: Differing[]
  differing: number
  same: number
  different: number
  examples: string[]
  unreadable: number
}

export const noSums = (): Sums => ({
  ...{ tallies: [emptyTally(), emptyTally()], patients: 0, judged: [], events: [], differ: [], differing: 0 },
  ...{ same: 0, different: 0, examples: [], unreadable: 0 },
})

export function addOutcome(sums: Sums, { patientId, differs, weight, ...one }: Outcome): void {
  merge(sums, {
    ...{ tallies: one.tallies, same: one.same, different: one.different, unreadable: one.unreadable },
    patients: one.tallies.some(({ patients }) => patients > 0) ? 1 : 0,
    judged: one.judged.length > 0 ? [one.judged] : [],
    events: one.events.length > 0 ? [one.events] : [],
    differ: differs ? [{ patientId, differs, weight }] : [],
    differing: differs ? 1 : 0,
    examples: one.examples,
  })
}

/** Adds the sums of some patients to those of others. */
export function merge(to: Sums, from: Sums): void {
  add(to.tallies[0], from.tallies[0])
  add(to.tallies[1], from.tallies[1])
  to.patients += from.patients
  to.judged.push(...from.judged)
  to.events.push(...from.events)
  to.differing += from.differing
  to.same += from.same
  to.different += from.different
  to.unreadable += from.unreadable
  if (to.examples.length < EXAMPLES)
    to.examples = [...to.examples, ...from.examples].sort().slice(0, EXAMPLES)
  if (from.differ.length === 0) return
  to.differ.push(...from.differ)
  if (to.differ.length > 2 * MOST_PATIENTS) to.differ = foremost(to.differ)
}

/** Those with the most urgent differences, in an order that does not depend on who was first. */
export const foremost = (differ: readonly Differing[]): Differing[] =>
  differ
    .toSorted((a, b) => b.weight - a.weight || (a.patientId < b.patientId ? -1 : 1))
    .slice(0, MOST_PATIENTS)

/** A part of the period in whole local days, with the days of members of staff with a recorded call. */
export type PartOf = { from: string; until: string; nurseDays: number }

/** The figures of one part. `which` says which of the two divisions are in it. */
export function partOf(
  { from, until, nurseDays }: PartOf,
  sums: Sums,
  which: readonly (0 | 1)[],
): ReplayPart {
  const tally = emptyTally()
  for (const i of which) add(tally, sums.tallies[i])
  const judged = only(sums.judged, which)
  const events = only(sums.events, which)
  const each = (opened: number) => (nurseDays > 0 ? opened / nurseDays : null)
  return {
    ...{
      from,
      until,
      patients: which.length > 1 ? sums.patients : tally.patients,
      patientDays: Math.round(tally.days),
    },
    flags: tally.flags,
    byCode: codesOf(tally).map((code) => ({ code, ...(tally.byCode[code] ?? emptyTally().flags) })),
    byUrgency: (['at-once', 'within-1h', 'within-24h', 'within-3d'] as const).map((urgency) => ({
      urgency,
      ...tally.byUrgency[urgency],
    })),
    perNurseDay: { inForce: each(tally.openings.inForce), draft: each(tally.openings.draft), nurseDays },
    moved: tally.moved,
    predictiveValue: predictiveValue(judged),
    hoursAhead: hoursAhead(events),
    eventsFound: eventsFound(events),
  }
}

const only = <T extends { part: 0 | 1 }>(lists: readonly T[][], which: readonly (0 | 1)[]): T[][] =>
  lists.map((list) => list.filter(({ part }) => which.includes(part))).filter((list) => list.length > 0)

/** Of the flags with a verdict the share that was warranted, each as many as it was drawn for; of the draft those that it opens too. */
function predictiveValue(patients: JudgedFlag[][]): Compared {
  const share = (counts: (flag: JudgedFlag) => boolean) => (some: readonly JudgedFlag[][]) => {
    let above = 0
    let below = 0
    for (const flags of some)
      for (const flag of flags) {
        if (!counts(flag)) continue
        below += flag.weight
        if (flag.isWarranted) above += flag.weight
      }
    return below === 0 ? null : above / below
  }
  const all = patients.flat()
  const n = { inForce: all.length, draft: all.filter(({ inDraft }) => inDraft).length }
  return compared(
    patients,
    share(() => true),
    share(({ inDraft }) => inDraft),
    n,
  )
}

type Side = 'inForce' | 'draft'
const found = (patients: readonly MetEvent[][], side: Side): number[] =>
  patients.flatMap((events) => events.flatMap((event) => event[side] ?? []))

function hoursAhead(patients: MetEvent[][]): Compared {
  const figure = (side: Side) => (some: readonly MetEvent[][]) => {
    const hours = found(some, side)
    return hours.length === 0 ? null : median(hours)
  }
  const n = { inForce: found(patients, 'inForce').length, draft: found(patients, 'draft').length }
  return compared(patients, figure('inForce'), figure('draft'), n)
}

function eventsFound(patients: MetEvent[][]): Compared {
  const all = patients.reduce((sum, events) => sum + events.length, 0)
  const share = (side: Side) => (some: readonly MetEvent[][]) => {
    const events = some.reduce((sum, list) => sum + list.length, 0)
    return events === 0 ? null : found(some, side).length / events
  }
  return compared(patients, share('inForce'), share('draft'), { inForce: all, draft: all })
}

/** Everything but the names of the patients and what only the clock knows. */
export function resultOf(
  parts: { whole: PartOf; earlier: PartOf | null; later: PartOf | null },
  sums: Sums,
): Pick<ReplayResult, 'whole' | 'earlier' | 'later' | 'differing' | 'agreement' | 'unreadable' | 'unjudged'> {
  const whole = partOf(parts.whole, sums, [0, 1])
  return {
    whole,
    earlier: parts.earlier && partOf(parts.earlier, sums, [0]),
    later: parts.later && partOf(parts.later, sums, [1]),
    differing: sums.differing,
    agreement: { same: sums.same, different: sums.different, examples: sums.examples },
    unreadable: sums.unreadable,
    unjudged: whole.flags.gained,
  }
}
