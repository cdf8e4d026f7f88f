import type { TooFew } from './input.ts'
import { type Level, normalQuantile } from './normal-quantile.ts'

export type Interval = {
  readonly enough: true
  readonly share: number
  readonly low: number
  readonly high: number
}

/**
 * Between which shares does the true one lie, when this many of so many were seen?
 *
 * Method: Wilson's score interval without continuity correction.
 * Units: shares, 0 to 1. Assumptions: independent trials of equal chance.
 * Source: Wilson, J Am Stat Assoc 1927;22:209; Newcombe, Stat Med 1998;17:857, method 3.
 *
 * @returns the interval, or the verdict that there was no trial.
 * @throws RangeError on counts that are not whole numbers with 0 ≤ successes ≤ trials.
 * @example wilson(81, 263) // share 0.308, low 0.2553, high 0.3662
 */
export function wilson(successes: number, trials: number, level: Level = 95): Interval | TooFew {
  const whole = Number.isSafeInteger(successes) && Number.isSafeInteger(trials)
  if (!whole || successes < 0 || trials < successes)
    throw new RangeError(`${successes} of ${trials}; accepted: whole numbers, 0 ≤ successes ≤ trials`)
  if (trials === 0) return { enough: false, have: 0, need: 1 }
  const z2 = normalQuantile(level) ** 2
  const share = successes / trials + 0 // −0 becomes 0
  const centre = (2 * successes + z2) / (2 * (trials + z2))
  const reach = Math.sqrt(z2 * (z2 + 4 * successes * (1 - share))) / (2 * (trials + z2))
  return {
    enough: true,
    share,
    low: successes === 0 ? 0 : centre - reach,
    high: successes === trials ? 1 : centre + reach,
  }
}
