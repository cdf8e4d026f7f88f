import { expect, it } from 'vitest'
import { normalQuantile } from '../../../lib/rules/statistics/normal-quantile.ts'

// R: qnorm(c(.9, .95, .975, .995)), the two-sided 80, 90, 95 and 99%
it.each([
  [80, 1.2815515655],
  [90, 1.644853627],
  [95, 1.9599639845],
  [99, 2.5758293035],
] as const)('holds the normal quantile of the %i%% level', (level, quantile) => {
  expect(normalQuantile(level)).toBeCloseTo(quantile, 9)
})
