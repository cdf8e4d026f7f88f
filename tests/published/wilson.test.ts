import { expect, it } from 'vitest'
import { wilson } from '../../lib/rules/statistics/wilson.ts'

/** Source: Newcombe, Stat Med 1998;17:857, Table I, method 3. Confidence: published, secondary copy. */
it.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('gives the printed 95%% interval of %i of %i', (successes, trials, low, high) => {
  const interval = wilson(successes, trials)
  if (!interval.enough) throw new Error('there are trials')
  expect(interval.low).toBeCloseTo(low, 4)
  expect(interval.high).toBeCloseTo(high, 4)
})
