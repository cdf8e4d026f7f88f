import { atLeast, atMost, less } from '../compare.ts'
import { median } from '../statistics/median.ts'
import type { Limits } from '../thresholds.ts'
import type { DayOutput } from './spread.ts'
import { overfull, type Stretch } from './stretches.ts'
import type { DrainView } from './view.ts'

const DAY_MS = 86_400_000

export interface Baseline {
  mlPerDay: number | null
  /** This tube's own days, the ward's figure (provisional), or not enough yet. */
  from: 'days' | 'ward' | 'unknown'
  /** Own days that there are, at most the most that a baseline uses. */
  days: number
}

/** A volume that looks like ounces written for millilitres, or the other way round. */
export interface VolumeSuspicion {
  stretch: Stretch
  expectedMl: number
}

/** Median of the days that may enter it; the ward's figure, labelled provisional, where they are too few. */
export function baselineOf(days: readonly DayOutput[], drain: DrainView): Baseline {
  if (days.length >= drain.limits.baselineMinDays)
    return { mlPerDay: median(days.map((day) => day.netMl)), from: 'days', days: days.length }
  const ward = drain.facts.usualMlPerDay
  return { mlPerDay: ward, from: ward === null ? 'unknown' : 'ward', days: days.length }
}

/**
 * Goes through stretches and complete days in order of time: which volumes are suspect, which days are clean,
 * and which may enter a baseline. Each is judged by the baseline of its own time.
 * @returns clean days, suspect stretches, those of them that look like ounces, and the baseline of the days that ended by an instant
 */
export function judgeDays(drain: DrainView, own: readonly Stretch[], complete: readonly DayOutput[]) {
  const { limits } = drain
  const accepted: DayOutput[] = []
  const clean: DayOutput[] = []
  const suspicions: VolumeSuspicion[] = []
  const suspect = new Set<Stretch>()
  const closedAt = drain.closedAt('output-decline') ?? Number.NEGATIVE_INFINITY
  // A closing closes only what had been received by then.
  const closed = (day: DayOutput) =>
    day.end <= closedAt &&
    day.from.every((i) => (own[i] as Stretch).readings.every((reading) => reading.receivedAt <= closedAt))

  const baselines: Baseline[] = [] // by how many accepted days lie before: the list only grows
  const baselineBefore = (instant: number): Baseline => {
    let end = accepted.length
    while (end > 0 && (accepted[end - 1] as DayOutput).end > instant) end--
    let baseline = baselines[end]
    if (!baseline) {
      baseline = baselineOf(accepted.slice(Math.max(0, end - limits.baselineMaxDays), end), drain)
      baselines[end] = baseline
    }
    return baseline
  }
  // A lasting fall must not become its own normal: low days of a steady drain wait until staff have closed the fall.
  const low = (day: DayOutput): boolean => {
    if (drain.course !== 'steady' || closed(day)) return false
    const usual = baselineBefore(day.start).mlPerDay
    if (usual === null) return false
    return atLeast(usual - day.netMl, limits.declineMinMl) && less(day.netMl, limits.declineRatio * usual)
  }
  let next = 0 // first complete day that has not been judged yet
  const judgeUntil = (instant: number) => {
    for (; next < complete.length && (complete[next] as DayOutput).end <= instant; next++) {
      const day = complete[next] as DayOutput
      if (!isClean(day, own, suspect)) continue
      clean.push(day)
      if (!low(day)) accepted.push(day)
    }
  }
  for (const stretch of own) {
    judgeUntil(stretch.start)
    if (stretch.readings.some((reading) => overfull(drain, reading))) suspect.add(stretch)
    const usual = baselineBefore(Math.min(stretch.start, stretch.end - DAY_MS)).mlPerDay
    if (usual === null || stretch.volumeMl === null) continue
    const expectedMl = (usual * stretch.hours) / 24 + stretch.flushedMl
    if (!offByOunces(stretch.volumeMl, expectedMl, limits)) continue
    suspicions.push({ stretch, expectedMl })
    suspect.add(stretch)
  }
  judgeUntil(Number.POSITIVE_INFINITY)
  return { clean, suspect, suspicions, baselineBefore }
}

/** Whether no stretch that covers the day is too long to date, or suspect. */
export const isClean = (day: DayOutput, own: readonly Stretch[], suspect: ReadonlySet<Stretch>): boolean =>
  !day.from.some((i) => (own[i] as Stretch).coarse || suspect.has(own[i] as Stretch))

function offByOunces(volumeMl: number, expectedMl: number, limits: Limits): boolean {
  if (!(volumeMl > 0 && expectedMl > 0)) return false
  const ratio = volumeMl > expectedMl ? volumeMl / expectedMl : expectedMl / volumeMl
  return atLeast(ratio, limits.ounceRatioLow) && atMost(ratio, limits.ounceRatioHigh)
}
