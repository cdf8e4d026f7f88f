import { median } from './median.ts'

/** 1 / Φ⁻¹(3/4): makes the MAD of a normal sample estimate its standard deviation. */
const normalConsistency = 1.482602218505602

/**
 * How far do these values usually lie from their middle, whatever a few strange ones do?
 *
 * Method: median absolute deviation from the median × 1.4826, so that it estimates the standard deviation of
 * normal data; breakdown point 50%.
 * Units: those of the values. Assumptions: none for the spread; normal data for reading it as a standard deviation.
 * Equal values give 0: the caller decides what least spread is believable.
 * Source: R `stats::mad` (constant = 1.4826, center = median); Hampel, J Am Stat Assoc 1974;69:383 (from memory).
 *
 * @throws RangeError on an empty list or a value that is not finite.
 * @example mad([1, 1, 2, 2, 4, 6, 9]) // 1.482602218505602
 */
export function mad(values: readonly number[]): number {
  const middle = median(values)
  return median(values.map((value) => Math.abs(value - middle))) * normalConsistency
}
