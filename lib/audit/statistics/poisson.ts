import { gammaln } from 'simple-statistics'

/**
 * Between which numbers does the expected one lie, when so many were counted?
 *
 * Method: exact interval of a Poisson count, 95%: at its lower end so many or more come with a chance of 2.5%, at its upper
 * end so many or fewer. Found by halving. Units: counts. Assumptions: independent events.
 * Source: Garwood, Biometrika 1936;28:437; R `poisson.test(count)$conf.int`.
 *
 * @throws RangeError on what is not a whole number of 0 or more.
 * @example poissonInterval(0) // { low: 0, high: 3.689 }
 */
export function poissonInterval(count: number): { low: number; high: number } {
  if (!Number.isSafeInteger(count) || count < 0)
    throw new RangeError(`count is ${count}; accepted: a whole number, 0 or more`)
  const far = count + 10 * Math.sqrt(count + 1) + 10
  return {
    low: count === 0 ? 0 : where((mean) => upTo(count - 1, mean) >= 1 - TAIL, 0, count),
    high: where((mean) => upTo(count, mean) >= TAIL, count, far),
  }
}

const TAIL = 0.025

/** The chance of at most so many: the terms from the largest down, until they add nothing. */
function upTo(count: number, mean: number): number {
  if (mean === 0) return 1
  const top = Math.min(count, Math.floor(mean))
  const peak = Math.exp(top * Math.log(mean) - mean - gammaln(top + 1))
  let sum = peak
  let term = peak
  for (let k = top; k > 0 && term > sum * 1e-17; k--) {
    term *= k / mean
    sum += term
  }
  term = peak
  for (let k = top + 1; k <= count && term > sum * 1e-17; k++) {
    term *= mean / k
    sum += term
  }
  return Math.min(1, sum)
}

/** The last mean of which it holds; it holds at `from` and no longer at `to`. */
function where(holds: (mean: number) => boolean, from: number, to: number): number {
  let low = from
  let high = to
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2
    if (holds(middle)) low = middle
    else high = middle
  }
  return (low + high) / 2
}
