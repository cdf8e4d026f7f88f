import { adherence as facts } from './parameters.ts'
import { randomFor } from './random.ts'

/**
 * Whether the patient reports on each day. People differ (logit-normal), the habit wears off over
 * the time (linear), and missed days come in runs (a Gaussian AR(1) behind a threshold).
 * @param mean share of days over all patients and the whole time, 0 to 1; 1 means every day
 */
export function reportingDays(seed: number, mean: number, days: number): boolean[] {
  if (mean >= 1) return Array.from({ length: days }, () => true)
  const random = randomFor(seed, 'adherence')
  const sd = facts.personLogitSd.value
  const spread = Math.sqrt(1 + 0.346 * sd ** 2) // keeps the mean where it should be: Zeger, Liang & Albert 1988
  const own = 1 / (1 + Math.exp(-(Math.log(mean / (1 - mean)) * spread + random.normal(0, sd))))
  const rho = facts.clustering.value
  let mood = random.normal()
  return Array.from({ length: days }, (_, day) => {
    mood = rho * mood + random.normal(0, Math.sqrt(1 - rho ** 2))
    const share = own * (1 + facts.fall.value * (0.5 - (day + 0.5) / days))
    return normalCdf(mood) < Math.min(0.99, share)
  })
}

/** Standard normal distribution function, Zelen & Severo (Abramowitz & Stegun 26.2.17), error below 7.5e-8. */
function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z))
  const tail =
    0.3989422804014327 *
    Math.exp((-z * z) / 2) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return z >= 0 ? 1 - tail : tail
}
