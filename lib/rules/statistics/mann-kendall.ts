import { errorFunction } from 'simple-statistics'
import { requireFinite, type TooFew } from './input.ts'
import { kendallVariance } from './kendall-variance.ts'

/** The normal approximation is held to be good enough from 10 values on (Kendall 1975, through Gilbert 1987: from memory). */
const least = 10

export type MannKendall = {
  readonly enough: true
  /** Rising pairs less falling pairs. */
  readonly s: number
  readonly variance: number
  readonly z: number
  /** One-sided: how often chance alone would show at least this much of a rise, or of a fall. */
  readonly pRise: number
  readonly pFall: number
}

/** The approximation is off by 1e-8 at 0, where the answer is known. */
const upperTail = (z: number) =>
  z === 0 ? 0.5 : Math.min(1, Math.max(0, (1 - errorFunction(z / Math.SQRT2)) / 2))

/**
 * Is there a trend, of whatever shape, in one direction?
 *
 * Method: Mann–Kendall test; variance corrected for ties, z with continuity correction, p one-sided by the normal
 * approximation (absolute error of p below 1e-7).
 * Units: none. Assumptions: values in order of time, independent; nothing of their distribution.
 * Source: Mann, Econometrica 1945;13:245; Kendall 1975; Gilbert 1987, section 16.4 (from memory); worked by hand at
 * mathcs.holycross.edu/~little (MannKendallByHand).
 *
 * All values equal: s, variance and z are 0 and both p are 0.5: no evidence either way.
 *
 * @returns the test, or the verdict that there are fewer than 10 values.
 * @throws RangeError on a value that is not finite.
 * @example mannKendall([12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11, 17.3, 15.9, 19, 18.3, 20.1, 21.7]) // s 54, z 2.9058, pRise 0.0018
 */
export function mannKendall(values: readonly number[]): MannKendall | TooFew {
  requireFinite(values, 'values')
  if (values.length < least) return { enough: false, have: values.length, need: least }
  let s = 0
  values.forEach((value, i) => {
    for (let j = 0; j < i; j++) s += Math.sign(value - (values[j] ?? value))
  })
  const variance = kendallVariance(values)
  const z = variance === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance)
  return { enough: true, s: s + 0, variance, z: z + 0, pRise: upperTail(z), pFall: upperTail(-z) }
}
