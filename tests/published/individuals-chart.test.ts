import { expect, it } from 'vitest'
import { xmr } from '../../lib/rules/statistics/xmr.ts'

/**
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2, individuals control charts, flow rates.
 * Confidence: published, secondary copy (data and printed limits). The limit of the moving range is arithmetic.
 */
const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]

it('gives the limits printed for the flow rates', () => {
  const chart = xmr(flow)
  if (!chart.enough) throw new Error('ten values are enough')
  expect(chart.mean).toBeCloseTo(50.81, 2)
  expect(chart.meanMovingRange).toBeCloseTo(1.8778, 4)
  expect(chart.upper).toBeCloseTo(55.8041, 4)
  expect(chart.lower).toBeCloseTo(45.8159, 4)
  expect(chart.upperMovingRange).toBeCloseTo(6.1347, 4)
})
