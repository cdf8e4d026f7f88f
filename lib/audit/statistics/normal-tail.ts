/**
 * Which share of a normal distribution lies beyond so many standard deviations, on one side?
 *
 * Method: below 5 the series for the inner part, from 5 on the continued fraction for the tail; good to 10 digits of the
 * tail, where the library's table is good to 4 decimals.
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.11 and 26.2.14 (from memory); R `pnorm(z, lower.tail = FALSE)`.
 *
 * @throws RangeError on what is not finite.
 * @example normalTail(1.959963984540054) // 0.025
 */
export function normalTail(z: number): number {
  if (!Number.isFinite(z)) throw new RangeError(`z is ${z}; accepted: a finite number`)
  if (z < 0) return 1 - normalTail(-z)
  const density = Math.exp(-(z * z) / 2) / Math.sqrt(2 * Math.PI)
  if (z < 5) {
    let term = z
    let sum = z
    for (let odd = 3; term > sum * 1e-18; odd += 2) {
      term *= (z * z) / odd
      sum += term
    }
    return 0.5 - density * sum
  }
  let fraction = z
  for (let n = 60; n >= 1; n--) fraction = z + n / fraction
  return density / fraction
}
