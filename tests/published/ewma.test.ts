import { expect, it } from 'vitest'
import { ewma } from '../../lib/rules/statistics/ewma.ts'

/**
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4, EWMA control charts.
 * Confidence: published, secondary copy. The handbook prints the lower limit as 47.4115; its own figures give 47.4116.
 */
const values = [
  52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
  53.6, 52.1,
]
const printed = [
  50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
  49.92, 50.73, 51.23, 51.94, 51.99,
]

it('gives the averages and limits printed, and stays in control', () => {
  const chart = ewma(values, { target: 50, sigma: 2.0539, lambda: 0.3, width: 3 })
  expect(chart.averages.map((average) => Number(average.toFixed(2)))).toEqual(printed)
  expect(chart.upper).toBeCloseTo(52.5884, 4)
  expect(chart.lower).toBeCloseTo(47.4116, 4)
  expect(chart).toMatchObject({ firstLow: null, firstHigh: null })
})
