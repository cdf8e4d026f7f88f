import { expect, it } from 'vitest'
import { cusum } from '../../lib/rules/statistics/cusum.ts'

/**
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3, tabular CUSUM.
 * Confidence: published, secondary copy. The handbook rounds by steps: a printed sum may be off by 0.01.
 */
const values = [
  324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15,
  328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
]
const high = [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.0, 19.04]
const low = [0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0, 0, 0, 0]

it('gives the sums printed, and signals first at the 14th value', () => {
  const chart = cusum(values, { target: 325, allowance: 0.3175, decision: 4.1959 })
  expect(chart.high).toHaveLength(high.length)
  high.forEach((sum, i) => {
    expect(Math.abs((chart.high[i] ?? Number.NaN) - sum)).toBeLessThan(0.011)
  })
  low.forEach((sum, i) => {
    expect(Math.abs((chart.low[i] ?? Number.NaN) - sum)).toBeLessThan(0.011)
  })
  expect(chart.firstHigh).toBe(13) // counted from 0
  expect(chart.firstLow).toBeNull()
})
