import { expect, it } from 'vitest'
import { normalTail } from '../../lib/audit/statistics/normal-tail.ts'
import { poissonInterval } from '../../lib/audit/statistics/poisson.ts'

it.each([
  [25, 16.18, 36.9], // GraphPad, 'How QuickCalcs computes the confidence interval of a count'. Confidence: published.
  [0, 0, 3.689], // R package epitools, manual of pois.exact. Confidence: published.
  [10, 4.8, 18.39], // calculatorhub.com, Poisson confidence interval. Confidence: published.
  [100, 81.36, 121.63], // R poisson.test(100)$conf.int, from memory.
])('gives Garwood’s interval of a count of %i', (count, low, high) => {
  const interval = poissonInterval(count)
  expect(interval.low).toBeCloseTo(low, 2)
  expect(interval.high).toBeCloseTo(high, count === 0 ? 3 : 1.9)
})

it.each([
  [1.959963984540054, 0.025], // R qnorm(0.975)
  [2.5758293035489004, 0.005], // R qnorm(0.995)
  [6, 9.865876450377e-10], // R pnorm(6, lower.tail = FALSE), from memory
])('gives the tail of a normal distribution beyond %f', (z, tail) => {
  expect(normalTail(z) / tail).toBeCloseTo(1, 9)
  expect(normalTail(-z)).toBeCloseTo(1 - tail, 12)
})
