import type { DrainKind } from '../../domain/words.ts'
import type { DrainInPlace, Stay, TubeStep } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'
import type { Week } from './weeks.ts'

const DAY_MS = 86_400_000

/** From one instant up to another, in ms. */
export type Stretch = { from: number; until: number }

/** A drain at home: in place, in follow-up, and its patient not in hospital. */
export type DrainAtRisk = {
  patient: string
  drain: string
  kind: DrainKind
  stretches: Stretch[]
  /** Catheter-days, by week. */
  days: number[]
  /** When it came out, each time. */
  removedAt: number[]
  own: DrainInPlace['overrides']
}

/** When each drain was at risk, from the beginning of the first week to the end of the last, or now. */
export function drainsAtRisk(
  drains: readonly DrainInPlace[],
  steps: readonly TubeStep[],
  stays: readonly Stay[],
  weeks: readonly Week[],
  now: number,
): DrainAtRisk[] {
  const begin = weeks[0]?.from ?? now
  const end = Math.min(weeks.at(-1)?.until ?? now, now)
  const stepsOf = grouped(steps, ({ drain }) => drain)
  const staysOf = grouped(stays, ({ patientId }) => patientId)
  return drains.map((row) => {
    const own = stepsOf.get(row.drain) ?? []
    const first = Math.max(Date.parse(row.placedAt), Date.parse(row.enrolledAt), begin)
    const last = Math.min(row.followUpEndedAt ? Date.parse(row.followUpEndedAt) : end, end)
    const away = (staysOf.get(row.patientId) ?? []).map(({ at, endedAt }) => ({
      from: Date.parse(at),
      until: endedAt ? Date.parse(endedAt) : Number.POSITIVE_INFINITY,
    }))
    const stretches = without(
      inPlace(own)
        .map(({ from, until }) => ({ from: Math.max(from, first), until: Math.min(until, last) }))
        .filter(({ from, until }) => from < until),
      away,
    )
    return {
      patient: row.patientId,
      drain: row.drain,
      kind: row.kind,
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
export function patientDays(drains: readonly DrainAtRisk[], weeks: readonly Week[]): Map<string, number[]> {
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
