import type { Hazard } from './parameter.ts'

/**
 * Hours until the first event of a Weibull hazard, for a tube that has already stood for some time
 * without one. Inverse of the conditional survival function.
 * @param ageDays days since placement
 * @param chance a uniform number in [0, 1)
 * @example hoursToEvent({ by30Days: 0.1, shape: 1 }, 0, 1 - Math.exp(-0.1)) // 720: 30 days
 */
export function hoursToEvent(hazard: Hazard, ageDays: number, chance: number): number {
  const until = hazard.by30Days * (ageDays / 30) ** hazard.shape - Math.log(1 - chance)
  return ((until / hazard.by30Days) ** (1 / hazard.shape) * 30 - ageDays) * 24
}
