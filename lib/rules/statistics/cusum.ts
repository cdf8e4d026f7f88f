import { requireFinite } from './input.ts'

export type CusumSettings = {
  readonly target: number
  /** Slack per value, commonly half of the shift that matters, in the unit of the values. */
  readonly allowance: number
  /** A sum above this is a signal, in the unit of the values. */
  readonly decision: number
}
export type CusumChart = {
  /** Sums of what lay above and below the target by more than the allowance; both are 0 or more. */
  readonly high: readonly number[]
  readonly low: readonly number[]
  /** Position of the first sum above the decision limit; null where there is none. */
  readonly firstHigh: number | null
  readonly firstLow: number | null
}

const orNull = (index: number) => (index < 0 ? null : index)

/**
 * Has a small shift of the level lasted long enough to matter, and in which direction?
 *
 * Method: tabular cumulative sum, two one-sided sums that start at 0:
 * high(i) = max(0, high(i − 1) + x(i) − target − k), low(i) = max(0, low(i − 1) + target − k − x(i)); a signal is a
 * sum above h. The sums go on after a signal.
 * Units: those of the values. Assumptions: values in order of time, independent, target known.
 * Source: NIST/SEMATECH e-Handbook 6.3.2.3; Page, Biometrika 1954;41:100 (from memory).
 *
 * No value gives no sum and no signal; a sum that equals the decision limit is no signal.
 *
 * @throws RangeError on a value or setting that is not finite, or a negative allowance or decision limit.
 * @example cusum([325.35, 328.325], { target: 325, allowance: 0.3175, decision: 4.1959 }).high // [0.0325, 3.04]
 */
export function cusum(values: readonly number[], settings: CusumSettings): CusumChart {
  const { target, allowance, decision } = settings
  requireFinite(values, 'values')
  requireFinite([target, allowance, decision], 'settings')
  if (allowance < 0) throw new RangeError(`allowance is ${allowance}; accepted: 0 or more`)
  if (decision < 0) throw new RangeError(`decision is ${decision}; accepted: 0 or more`)
  const high: number[] = []
  const low: number[] = []
  let above = 0
  let below = 0
  for (const value of values) {
    above = Math.max(0, above + value - target - allowance)
    below = Math.max(0, below + target - allowance - value)
    high.push(above)
    low.push(below)
  }
  return {
    high,
    low,
    firstHigh: orNull(high.findIndex((sum) => sum > decision)),
    firstLow: orNull(low.findIndex((sum) => sum > decision)),
  }
}
