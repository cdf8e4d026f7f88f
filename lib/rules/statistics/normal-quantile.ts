/** Confidence levels in percent that the statistics offer. */
export type Level = 80 | 90 | 95 | 99

const quantiles: Readonly<Record<Level, number>> = {
  80: 1.2815515655446004,
  90: 1.6448536269514722,
  95: 1.959963984540054,
  99: 2.5758293035489004,
}

/**
 * Within how many standard deviations of the mean does this share of a normal distribution lie?
 *
 * Method: a closed table, since the approximation in the library is good to 3 digits only.
 * Units: standard deviations. Source: R `qnorm(1 - (1 - level / 100) / 2)`.
 *
 * @example normalQuantile(95) // 1.959963984540054
 */
export function normalQuantile(level: Level): number {
  return quantiles[level]
}
