import { type Level, normalQuantile } from '../../rules/statistics/normal-quantile.ts'

/** How long something was waited for, and whether it came (`event`) or was still waited for when last looked (censored). */
export type Waited = { readonly time: number; readonly event: boolean }

/** One step of the curve, at a time at which something happened. `atRisk` stood just before it. */
export type Step = {
  readonly time: number
  readonly atRisk: number
  readonly events: number
  /** The share that still waits after it. */
  readonly survival: number
  /** Greenwood's standard error of that share. */
  readonly se: number
}

/**
 * Which share still waits after so long?
 *
 * Method: product-limit estimator; censored times count as at risk up to and with their time. Standard error by Greenwood's
 * formula. Units: shares; times as given. Assumptions: who is censored would have waited as the others do; independent waits
 * (for repeated ones see clustered-survival.ts).
 * Source: Kaplan and Meier, J Am Stat Assoc 1958;53:457; Greenwood 1926.
 *
 * @returns a step per time of an event, the earliest first; empty where nothing happened.
 * @throws RangeError on a time that is negative or not finite.
 * @example kaplanMeier([{ time: 6, event: true }, { time: 9, event: false }]) // one step: 6, at risk 2, survival 0.5
 */
export function kaplanMeier(waits: readonly Waited[]): Step[] {
  const sorted = inOrder(waits)
  const steps: Step[] = []
  let survival = 1
  let sum = 0
  for (let i = 0; i < sorted.length; ) {
    const time = sorted[i]?.time ?? 0
    const atRisk = sorted.length - i
    let events = 0
    for (; i < sorted.length && sorted[i]?.time === time; i++) if (sorted[i]?.event) events++
    if (events === 0) continue
    survival *= 1 - events / atRisk
    sum += atRisk > events ? events / (atRisk * (atRisk - events)) : 0
    steps.push({ time, atRisk, events, survival, se: survival * Math.sqrt(sum) })
  }
  return steps
}

/** The waits by their time. @throws RangeError on a time that is negative or not finite. */
export function inOrder<T extends { readonly time: number }>(waits: readonly T[]): T[] {
  const bad = waits.find(({ time }) => !Number.isFinite(time) || time < 0)
  if (bad) throw new RangeError(`time ${bad.time}; accepted: 0 or more`)
  return waits.toSorted((a, b) => a.time - b.time)
}

/**
 * Between which shares does the true one lie?
 *
 * Method: interval on the scale of log(−log S), which stays between 0 and 1.
 * Source: Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data, 1980, section 1.3 (from memory);
 * R `survfit(…, conf.type = "log-log")`.
 *
 * @returns null where there is no interval: nobody or everybody, or no error.
 */
export function logLogInterval(
  survival: number,
  se: number,
  level: Level = 95,
): { low: number; high: number } | null {
  if (!(survival > 0 && survival < 1 && se > 0)) return null
  const reach = (normalQuantile(level) * se) / Math.abs(survival * Math.log(survival))
  return { low: survival ** Math.exp(reach), high: survival ** Math.exp(-reach) }
}

/**
 * After how long has the half of them stopped waiting?
 *
 * Method: the earliest time at which the share that waits is at most a half; its interval holds the times at which the
 * interval of the share holds a half. Source: Brookmeyer and Crowley, Biometrics 1982;38:29.
 *
 * @param seOf the standard error of the share at a step; Greenwood's by default.
 * @returns the time and the ends of its interval, each null where the curve does not come so far.
 */
export function medianWait(
  steps: readonly Step[],
  seOf: (step: Step) => number = (step) => step.se,
): { median: number | null; low: number | null; high: number | null } {
  const end = (step: Step, side: 'low' | 'high') =>
    logLogInterval(step.survival, seOf(step))?.[side] ?? step.survival
  // The upper end can rise again where few are left, so it is looked for step by step from the median on, before which it is above.
  const at = first(steps, ({ survival }) => survival <= HALF)
  return {
    median: steps[at]?.time ?? null,
    low: steps[first(steps, (step) => end(step, 'low') <= HALF)]?.time ?? null,
    high: steps.slice(at).find((step) => end(step, 'high') <= HALF)?.time ?? null,
  }
}

/** A half, with room for what a product of fractions leaves behind it. */
const HALF = 0.5 + 1e-12

/** The place of the first step of which it holds, where it holds of all that follow. Halving: a curve can have many steps. */
function first(steps: readonly Step[], holds: (step: Step) => boolean): number {
  let from = 0
  let to = steps.length
  while (from < to) {
    const middle = (from + to) >> 1
    const step = steps[middle]
    if (step && holds(step)) to = middle
    else from = middle + 1
  }
  return from
}
