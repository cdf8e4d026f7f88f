import { type Level, normalQuantile } from '../../rules/statistics/normal-quantile.ts'

/** What one patient gives to a ratio: to its numerator and to its denominator, weighted where they were sampled. */
export type Share = { readonly n: number; readonly d: number }

export type Ratio = {
  readonly value: number
  /** Standard error; null with fewer than two clusters, of which no spread can be seen. */
  readonly se: number | null
  /** How many clusters of one size they are worth: fewer where some weigh more than others (Kish). */
  readonly clusters: number
}

/**
 * How large is a ratio of sums, and how far may it be off, where the same patients count several times?
 *
 * Method: ratio estimator, its variance by linearisation with the patient as the unit: m / (m − 1) Σ (nᵢ − R dᵢ)² / D².
 * Weighted by 1 / probability of being drawn it is Hájek's estimator of a share. Assumptions: patients are independent, and many
 * (with under about 20 the error comes out too small).
 * Source: Cochran, Sampling Techniques, 1977, 6.4 and 9A (from memory); Hájek 1971; Kish, Survey Sampling, 1965, 11.7
 * (from memory); R `survey::svyratio(~n, ~d, svydesign(id = ~patient, weights = ~w))`.
 *
 * @returns null where the denominator is 0.
 */
export function ratioByCluster(shares: readonly Share[]): Ratio | null {
  let numerator = 0
  let denominator = 0
  let squares = 0
  for (const { n, d } of shares) {
    numerator += n
    denominator += d
    squares += d * d
  }
  if (!(denominator > 0)) return null
  const value = numerator / denominator
  const clusters = denominator ** 2 / squares
  const m = shares.length
  if (m < 2) return { value, se: null, clusters }
  let sum = 0
  for (const { n, d } of shares) sum += (n - value * d) ** 2
  return { value, se: Math.sqrt((m / (m - 1)) * sum) / denominator, clusters }
}

/**
 * The interval of a rate, on the scale of its logarithm, which stays above 0.
 * Source: delta method; as R `survey::svycontrast` on log gives it.
 */
export function rateInterval({ value, se }: Ratio, level: Level = 95): { low: number; high: number } | null {
  if (se === null || !(value > 0)) return null
  const factor = Math.exp((normalQuantile(level) * se) / value)
  return { low: value / factor, high: value * factor }
}

/**
 * The interval of a share, by Wilson's method with the effective number in place of the number: how many independent ones would
 * have this error. Never more than there were; where all were alike no error can be seen, and the patients count by their weight, not what was
 * counted of them.
 * Source: Dean and Pagano, J Surv Stat Methodol 2015;3:484 (from memory); Franco, Little, Louis and Slud, J Surv Stat Methodol 2019;7:334 (PMC6690503),
 * who recommend Wilson's form.
 *
 * @param units how many were counted.
 */
export function shareInterval(
  { value, se, clusters }: Ratio,
  units: number,
  level: Level = 95,
): { low: number; high: number } {
  const isMixed = value > 0 && value < 1 && se !== null && se > 0
  const n = Math.min(units, isMixed ? (value * (1 - value)) / (se * se) : clusters)
  const z2 = normalQuantile(level) ** 2
  const centre = (value * n + z2 / 2) / (n + z2)
  const reach = Math.sqrt(z2 * (value * (1 - value) * n + z2 / 4)) / (n + z2)
  return {
    low: value === 0 ? 0 : Math.max(0, centre - reach),
    high: value === 1 ? 1 : Math.min(1, centre + reach),
  }
}
