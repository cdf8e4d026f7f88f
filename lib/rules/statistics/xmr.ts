import { requireFinite, type TooFew } from './input.ts'

/** Bias constants of a moving range of two: d2 and D4. */
const d2 = 1.128
const d4 = 3.267

export type IndividualsChart = {
  readonly enough: true
  readonly mean: number
  readonly meanMovingRange: number
  readonly lower: number
  readonly upper: number
  readonly upperMovingRange: number
}

/**
 * Between which limits do single values of a stable process lie?
 *
 * Method: individuals and moving range chart (XmR): mean ± 3 × mean moving range of two / d2, d2 = 1.128;
 * limit of the moving range D4 × its mean, D4 = 3.267.
 * Units: those of the values. Assumptions: values in order of time, independent, about normal.
 * Source: NIST/SEMATECH e-Handbook 6.3.2.2.
 *
 * @returns the chart, or the verdict that there are fewer than 2 values (no range can be taken).
 * @throws RangeError on a value that is not finite.
 * @example xmr([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]) // { mean: 50.81, upper: 55.804, lower: 45.816, … }
 */
export function xmr(values: readonly number[]): IndividualsChart | TooFew {
  requireFinite(values, 'values')
  if (values.length < 2) return { enough: false, have: values.length, need: 2 }
  let sum = 0
  let ranges = 0
  values.forEach((value, i) => {
    sum += value
    if (i > 0) ranges += Math.abs(value - (values[i - 1] ?? value))
  })
  const mean = sum / values.length + 0 // −0 becomes 0
  const meanMovingRange = ranges / (values.length - 1)
  const reach = (3 * meanMovingRange) / d2
  return {
    enough: true,
    mean,
    meanMovingRange,
    lower: mean - reach,
    upper: mean + reach,
    upperMovingRange: d4 * meanMovingRange,
  }
}
