import { requireFinite } from './input.ts'

export type EwmaSettings = {
  /** Centre of the process while nothing has changed. */
  readonly target: number
  /** Standard deviation of one value while nothing has changed. */
  readonly sigma: number
  /** Weight of the newest value, above 0 up to 1 (1 is a chart without memory). */
  readonly lambda: number
  /** Distance of the limits from the target in standard deviations of the average. */
  readonly width: number
}
export type EwmaChart = {
  readonly averages: readonly number[]
  readonly lower: number
  readonly upper: number
  /** Position of the first average below `lower`, and of the first above `upper`; null where there is none. */
  readonly firstLow: number | null
  readonly firstHigh: number | null
}

const orNull = (index: number) => (index < 0 ? null : index)

/**
 * Has the level of a process shifted by a little, for some time?
 *
 * Method: exponentially weighted moving average chart, z(i) = λ x(i) + (1 − λ) z(i − 1), z(0) = target, with the
 * asymptotic limits target ± width × sigma × √(λ / (2 − λ)): early in a series they are wider than the exact ones,
 * so they raise less.
 * Units: those of the values. Assumptions: values in order of time, independent, target and sigma known.
 * Source: NIST/SEMATECH e-Handbook 6.3.2.4; Roberts, Technometrics 1959;1:239 (from memory).
 *
 * No value gives no average and no signal; a value on a limit is inside.
 *
 * @throws RangeError on a value or setting that is not finite, sigma < 0, lambda outside (0, 1], width < 0.
 * @example ewma([52, 47], { target: 50, sigma: 2.0539, lambda: 0.3, width: 3 }) // averages [50.6, 49.52], upper 52.5884
 */
export function ewma(values: readonly number[], settings: EwmaSettings): EwmaChart {
  const { target, sigma, lambda, width } = settings
  requireFinite(values, 'values')
  requireFinite([target, sigma, lambda, width], 'settings')
  if (sigma < 0) throw new RangeError(`sigma is ${sigma}; accepted: 0 or more`)
  if (lambda <= 0 || lambda > 1) throw new RangeError(`lambda is ${lambda}; accepted: above 0, up to 1`)
  if (width < 0) throw new RangeError(`width is ${width}; accepted: 0 or more`)
  const averages: number[] = []
  let average = target
  for (const value of values) {
    average = lambda * value + (1 - lambda) * average
    averages.push(average)
  }
  const reach = width * sigma * Math.sqrt(lambda / (2 - lambda))
  const lower = target - reach
  const upper = target + reach
  return {
    averages,
    lower,
    upper,
    firstLow: orNull(averages.findIndex((z) => z < lower)),
    firstHigh: orNull(averages.findIndex((z) => z > upper)),
  }
}
