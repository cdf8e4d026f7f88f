import type { DrainKind } from '../../domain/words.ts'
import type { DrainInPlace, Stay, TubeStep } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'
import { endedSpans, type Stretch } from '../ended-spans.ts'
import type { Week } from './weeks.ts'

const DAY_MS = 86_400_000
/** An event counts up to so long after its drain came out or follow-up ended: events are told by the day (local choice). */
const AFTER_MS = DAY_MS

/** A drain at home: in place, in follow-up, and its patient not in hospital. */
export type DrainAtRisk = {
  patient: string
  drain: string
  kind: DrainKind
  /** In place and in follow-up, in hospital too: what befell the patient then is of this drain. */
  followed: Stretch[]
  stretches: Stretch[]
  /** Catheter-days, by week. */
  days: number[]
  /** When it came out, each time. */
  removedAt: number[]
  own: DrainInPlace['overrides']
}

/** What takes patients out of those at risk: stays in hospital; ends of follow-up and resumptions, in order; deaths. */
type Absences = {
  stays: readonly Stay[]
  turns: readonly { patientId: string; at: string; step: string }[]
  /** When each had died. */
  deaths: ReadonlyMap<string, number>
}

/**
 * When each drain was at risk, from the beginning of the first week to the end of the last, or now. Before the store knew of it
 * nothing could be seen, and who was enrolled later had lived so long: that time does not count.
 */
export function drainsAtRisk(
  drains: readonly DrainInPlace[],
  steps: readonly TubeStep[],
  { stays, turns, deaths }: Absences,
  weeks: readonly Week[],
  now: number,
): DrainAtRisk[] {
  const begin = weeks[0]?.from ?? now
  const end = Math.min(weeks.at(-1)?.until ?? now, now)
  const stepsOf = grouped(steps, ({ drain }) => drain)
  const staysOf = grouped(stays, ({ patientId }) => patientId)
  const turnsOf = grouped(turns, ({ patientId }) => patientId)
  return drains.map((row) => {
    const own = stepsOf.get(row.drain) ?? []
    const { placedAt, enrolledAt, knownAt } = row
    const first = Math.max(...[placedAt, enrolledAt, knownAt].map(Date.parse), begin)
    const last = Math.min(
      row.followUpEndedAt ? Date.parse(row.followUpEndedAt) : end,
      deaths.get(row.patientId) ?? end,
      end,
    )
    const away = (staysOf.get(row.patientId) ?? []).map(({ at, endedAt }) => ({
      from: Date.parse(at),
      until: endedAt ? Date.parse(endedAt) : Number.POSITIVE_INFINITY,
    }))
    const followed = without(
      inPlace(own)
        .map(({ from, until }) => ({ from: Math.max(from, first), until: Math.min(until, last) }))
        .filter(({ from, until }) => from < until),
      endedSpans(turnsOf.get(row.patientId) ?? []),
    )
    const stretches = without(followed, away)
    return {
      patient: row.patientId,
      drain: row.drain,
      kind: row.kind,
      followed,
      stretches,
      days: weeks.map((week) => overlap(stretches, week) / DAY_MS),
      removedAt: own.filter(({ isIn }) => !isIn).map(({ at }) => Date.parse(at)),
      own: row.overrides,
    }
  })
}

/** From when to when a tube is in: always, but from each removal to the next placement. */
function inPlace(steps: readonly TubeStep[]): Stretch[] {
  const stretches: Stretch[] = []
  let from: number | null = Number.NEGATIVE_INFINITY
  for (const { at, isIn } of steps) {
    if (isIn) from ??= Date.parse(at)
    else if (from !== null) {
      stretches.push({ from, until: Date.parse(at) })
      from = null
    }
  }
  return from === null ? stretches : [...stretches, { from, until: Number.POSITIVE_INFINITY }]
}

/** Stretches with others cut out of them. */
function without(stretches: readonly Stretch[], cuts: readonly Stretch[]): Stretch[] {
  let left = [...stretches]
  for (const cut of cuts)
    left = left
      .flatMap(({ from, until }) => [
        { from, until: Math.min(until, cut.from) },
        { from: Math.max(from, cut.until), until },
      ])
      .filter(({ from, until }) => from < until)
  return left
}

const overlap = (stretches: readonly Stretch[], { from, until }: Stretch) =>
  stretches.reduce((sum, one) => sum + Math.max(0, Math.min(one.until, until) - Math.max(one.from, from)), 0)

/** On how many days each patient was at risk with any drain, by week: at noon of the clinic's day. */
export function patientDays(
  drains: readonly Pick<DrainAtRisk, 'patient' | 'stretches'>[],
  weeks: readonly Week[],
): Map<string, number[]> {
  const days = new Map<string, number[]>()
  for (const [patient, own] of grouped(drains, (drain) => drain.patient)) {
    const stretches = own.flatMap((drain) => drain.stretches)
    if (stretches.length > 0)
      days.set(
        patient,
        weeks.map(
          ({ noons }) =>
            noons.filter((noon) => stretches.some(({ from, until }) => from <= noon && noon < until)).length,
        ),
      )
  }
  return days
}

/** Whether an event befell a patient with the drain in place and in follow-up: only such can be set against the days at risk. */
export function atRiskThen(drains: readonly DrainAtRisk[]) {
  const drainsOf = grouped(drains, ({ patient }) => patient)
  return ({ patientId, drain, at }: { patientId: string; drain: string | null; at: string }): boolean => {
    const ms = Date.parse(at)
    return (drainsOf.get(patientId) ?? []).some(
      (own) =>
        (drain === null || own.drain === drain) &&
        own.followed.some(({ from, until }) => from <= ms && ms <= until + AFTER_MS),
    )
  }
}
