import { median as libraryMedian } from 'simple-statistics'
import { requireFinite } from './input.ts'

/**
 * What is the middle of these values?
 *
 * Method: sample median; of an even number of values the mean of the middle two (R's type 7 at p = 0.5).
 * The library has the method; this adds the contract: a readonly input that stays as it is, and one
 * documented error instead of a silent NaN.
 * Units: those of the values. Assumptions: none.
 * Source: simple-statistics `median`.
 *
 * @throws RangeError on an empty list (nothing has no middle: the caller counts first) or a value that is not finite.
 * @example median([410, 380, 400]) // 400
 * @example median([1, 2, 3, 4]) // 2.5
 */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('values is empty; accepted: at least one value')
  requireFinite(values, 'values')
  return libraryMedian([...values]) + 0 // −0 becomes 0
}
