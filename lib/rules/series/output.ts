import { median } from 'simple-statistics'
import type { ReadingValue, Stated } from './prepare.ts'
import { type DayOutput, spreadOverDays, within } from './spread.ts'
import { type Stretch, stretchesOf } from './stretches.ts'
import type { DrainView } from './view.ts'

const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000

export interface Baseline {
  mlPerDay: number | null
  /** This tube's own days, the ward's figure (provisional), or not enough yet. */
  from: 'days' | 'ward' | 'unknown'
  /** Own days that there are, at most the most that a baseline uses. */
  days: number
}

/** The 24 real hours up to a reading, and the baseline that they are compared with. */
export interface Last24 {
  netMl: number
  coverage: number
  coarse: boolean
  used: Stretch[]
  /** The reading that ends them. */
  end: number
  baseline: Baseline
}

/** A volume that looks like ounces written for millilitres, or the other way round. */
export interface VolumeSuspicion {
  stretch: Stretch
  expectedMl: number
}

/** All that is worked out from the readings and flushes of one drain. */
export interface Output {
  /** Every stretch, those of earlier tubes among them. */
  all: Stretch[]
  /** Stretches of this tube, since its newest tube or uncapping. */
  own: Stretch[]
  /** Local days as this tube's stretches cover them. */
  days: DayOutput[]
  /** Days of this tube that are covered to the completeness limit, oldest first. */
  complete: DayOutput[]
  /** Complete days that neither a coarse nor a suspect stretch touches. */
  clean: DayOutput[]
  suspicions: VolumeSuspicion[]
  /** The 24 h up to the i-th stretch of `own`. */
  last24At(i: number): Last24
  /** The 24 h up to the last reading, or null before the first. */
  last24: Last24 | null
  baseline: Baseline
}

export function outputOf(drain: DrainView): Output {
  const all = stretchesOf(drain)
  const own = all.filter((stretch) => stretch.start >= drain.tube.start)
  const { limits } = drain
  const days = spreadOverDays(drain.view.record.zone, own)
  const complete = days.filter((day) => day.coverage >= limits.completeCoverage - 1e-9)
  const accepted: DayOutput[] = []
  const clean: DayOutput[] = []
  const suspicions: VolumeSuspicion[] = []
  const suspect = new Set<Stretch>()
  const closedAt = drain.closedAt('output-decline') ?? Number.NEGATIVE_INFINITY
  let next = 0 // first complete day that has not been judged yet

  const baselines: Baseline[] = [] // by how many accepted days lie before: the list only grows
  const baselineBefore = (instant: number): Baseline => {
    let end = accepted.length
    while (end > 0 && (accepted[end - 1] as DayOutput).end > instant) end--
    let baseline = baselines[end]
    if (!baseline) {
      baseline = baselineOf(end)
      baselines[end] = baseline
    }
    return baseline
  }
  const baselineOf = (end: number): Baseline => {
    const latest = accepted.slice(Math.max(0, end - limits.baselineMaxDays), end)
    if (latest.length >= limits.baselineMinDays)
      return { mlPerDay: median(latest.map((day) => day.netMl)), from: 'days', days: latest.length }
    const ward = drain.facts.usualMlPerDay
    return { mlPerDay: ward, from: ward === null ? 'unknown' : 'ward', days: latest.length }
  }
  // A lasting fall must not become its own normal: low days of a steady drain wait until staff have closed the fall.
  const low = (day: DayOutput): boolean => {
    if (drain.course !== 'steady' || day.end <= closedAt) return false
    const usual = baselineBefore(day.start).mlPerDay
    return (
      usual !== null && day.netMl < limits.declineRatio * usual && usual - day.netMl >= limits.declineMinMl
    )
  }
  const judgeDaysUntil = (instant: number) => {
    for (; next < complete.length && (complete[next] as DayOutput).end <= instant; next++) {
      const day = complete[next] as DayOutput
      if (day.from.some((i) => (own[i] as Stretch).coarse || suspect.has(own[i] as Stretch))) continue
      clean.push(day)
      if (!low(day)) accepted.push(day)
    }
  }
  for (const stretch of own) {
    judgeDaysUntil(stretch.start)
    const usual = baselineBefore(Math.min(stretch.start, stretch.end - DAY_MS)).mlPerDay
    if (usual === null || stretch.volumeMl === null) continue
    const expectedMl = (usual * stretch.hours) / 24 + stretch.flushedMl
    if (offByOunces(stretch.volumeMl, expectedMl, limits)) {
      suspicions.push({ stretch, expectedMl })
      suspect.add(stretch)
    }
  }
  judgeDaysUntil(Number.POSITIVE_INFINITY)

  const last24At = (i: number): Last24 => {
    const end = (own[i] as Stretch).end
    return { ...within(own, end - DAY_MS, end, i), end, baseline: baselineBefore(end - DAY_MS) }
  }
  const last24 = own.length > 0 ? last24At(own.length - 1) : null
  return {
    all,
    own,
    days,
    complete,
    clean,
    suspicions,
    last24At,
    last24,
    baseline: last24?.baseline ?? baselineBefore(Number.NEGATIVE_INFINITY),
  }
}

function offByOunces(volumeMl: number, expectedMl: number, limits: DrainView['limits']): boolean {
  if (!(volumeMl > 0 && expectedMl > 0)) return false
  const ratio = volumeMl > expectedMl ? volumeMl / expectedMl : expectedMl / volumeMl
  return ratio >= limits.ounceRatioLow && ratio <= limits.ounceRatioHigh
}

/** Whether a reading only says 'at least': the bag was full. */
export const atLeast = (drain: DrainView, reading: Stated<ReadingValue>): boolean =>
  !reading.value.total &&
  reading.value.volumeMl !== null &&
  drain.facts.bagCapacityMl !== null &&
  reading.value.volumeMl >= drain.facts.bagCapacityMl

/** What there is to compare with a baseline: enough of the 24 h known, none of it from a stretch too long to date. */
export const comparable = (last: Last24, limits: DrainView['limits']): boolean =>
  last.coverage >= limits.completeCoverage - 1e-9 && !last.coarse

export { DAY_MS, HOUR_MS }
