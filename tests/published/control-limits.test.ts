import { expect, it } from 'vitest'
import { runRules } from '../../lib/audit/statistics/run-rules.ts'
import { uChart } from '../../lib/audit/statistics/u-chart.ts'

it('gives the limits of the u-chart of defects of fabric', () => {
  // Source: SAS/QC User's Guide, UCHART statement, 'Creating u Charts from Defect Count Data' and 'Saving Control Limits': 20 rolls of
  // 30 square metres; the data set of limits prints LCL .001671271, centre 0.30333, UCL 0.60500. Confidence: published.
  const defects = [12, 11, 9, 15, 7, 6, 5, 10, 8, 8, 14, 5, 9, 13, 7, 5, 8, 11, 7, 12]
  const chart = uChart(defects.map((events) => ({ events, exposure: 30 })))
  expect(chart?.centre).toBeCloseTo(0.30333, 5)
  for (const limits of chart?.limits ?? []) {
    expect(limits?.lower).toBeCloseTo(0.001671271, 9)
    expect(limits?.upper).toBeCloseTo(0.605, 5)
  }
})

it('gives limits that follow the exposure', () => {
  // Source: Montgomery, Introduction to Statistical Quality Control, dyed cloth (the data: R package qcc, dyedcloth, whose manual prints
  // mean 15.3 and 10.75). Limits as the book prints them: from memory.
  const rolls = [14, 12, 20, 11, 7, 10, 21, 16, 19, 23]
  const sizes = [10, 8, 13, 10, 9.5, 10, 12, 10.5, 12, 12.5]
  const chart = uChart(rolls.map((events, i) => ({ events, exposure: sizes[i] ?? 0 })))
  expect(chart?.centre).toBeCloseTo(1.42, 2)
  const printed = [
    [0.29, 2.55],
    [0.16, 2.69],
    [0.43, 2.41],
  ]
  for (const [i, [lower = 0, upper = 0]] of printed.entries()) {
    expect(chart?.limits[i]?.lower).toBeCloseTo(lower, 1.7)
    expect(chart?.limits[i]?.upper).toBeCloseTo(upper, 1.7)
  }
})

/**
 * Source: Perla, Provost and Murray, BMJ Qual Saf 2011;20:46, as BMJ Open prints it in a table of rules for run charts: six or more
 * consecutive points all above or all below the centre; five or more consecutive points that increase or decrease; points on the centre
 * line are ignored, of equal ones the first counts (summary of the rules by NAHQ). Confidence: published, secondary copy.
 */
it('sees a shift from six points on, and a trend from five', () => {
  expect(runRules([1, 1, 1, 1, 1], 0)).toEqual([])
  expect(runRules([1, 2, 1, 2, 1, 2], 0)).toEqual([{ kind: 'shift', from: 0, to: 5, up: true }])
  expect(runRules([1, 2, 1, 0, 2, 1, 2], 0)).toEqual([{ kind: 'shift', from: 0, to: 6, up: true }])
  expect(runRules([-2, -1, 1, 2], 0)).toEqual([])
  expect(runRules([-2, -1, 0, 1, 2], 0)).toEqual([{ kind: 'trend', from: 0, to: 4, up: true }])
  expect(runRules([2, 1, 1, 0, -1, -2], 0)).toEqual([{ kind: 'trend', from: 0, to: 5, up: false }])
})
