import type { Limits } from '../thresholds.ts'
import { type Baseline, judgeDays, type VolumeSuspicion } from './baseline.ts'
import { outputUpTo, sharesHistory } from './output-up-to.ts'
import { type DayOutput, spreadOverDays, within } from './spread.ts'
import { type Stretch, stretchesOf } from './stretches.ts'
import type { DrainView } from './view.ts'

const DAY_MS = 86_400_000

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

/** All that is worked out from the readings and flushes of one drain. */
export interface Output {
  /** Every stretch, those of earlier tubes among them. */
  readonly all: readonly Stretch[]
  /** Stretches of this tube, since its newest tube or uncapping. */
  readonly own: readonly Stretch[]
  /** How many of them there are. */
  readonly count: number
  /** Local days as this tube's stretches cover them. */
  readonly days: readonly DayOutput[]
  /** Days of this tube that are covered to the completeness limit, oldest first. */
  readonly complete: readonly DayOutput[]
  /** Complete days that neither a coarse nor a suspect stretch touches. */
  readonly clean: readonly DayOutput[]
  /** Stretches whose volume cannot be right, and those of them that look like ounces. */
  readonly suspect: ReadonlySet<Stretch>
  readonly suspicions: readonly VolumeSuspicion[]
  /** The 24 h up to the i-th stretch of `own`. */
  last24At(i: number): Last24
  /** The 24 h up to the last reading, or null before the first. */
  readonly last24: Last24 | null
  readonly baseline: Baseline
}

export function outputOf(drain: DrainView): Output {
  const { latest } = drain
  if (latest && sharesHistory(drain, latest)) return outputUpTo(drain, latest.output)
  const all = stretchesOf(drain)
  const own = all.filter((stretch) => stretch.start >= drain.tube.start)
  const { limits } = drain
  const days = spreadOverDays(drain.view.record.zone, own)
  const complete = days.filter((day) => isComplete(day, limits))
  const { clean, suspect, suspicions, baselineBefore } = judgeDays(drain, own, complete)
  const lasts: Last24[] = []
  const last24At = (i: number): Last24 => {
    let last = lasts[i]
    if (!last) {
      const { end } = own[i] as Stretch
      last = { ...within(own, end - DAY_MS, end, i), end, baseline: baselineBefore(end - DAY_MS) }
      lasts[i] = last
    }
    return last
  }
  const last24 = own.length > 0 ? last24At(own.length - 1) : null
  const baseline = last24?.baseline ?? baselineBefore(Number.NEGATIVE_INFINITY)
  return {
    all,
    own,
    count: own.length,
    days,
    complete,
    clean,
    suspect,
    suspicions,
    last24At,
    last24,
    baseline,
  }
}

export const isComplete = (day: DayOutput, limits: Limits): boolean =>
  day.coverage >= limits.completeCoverage - 1e-9

/** Whether enough of the 24 h is known to compare them with a baseline. */
export const covered = (last: Last24, limits: Limits): boolean =>
  last.coverage >= limits.completeCoverage - 1e-9

/** Likewise, and none of it from a stretch too long to date: an average over days hides a fall. */
export const comparable = (last: Last24, limits: Limits): boolean => covered(last, limits) && !last.coarse
