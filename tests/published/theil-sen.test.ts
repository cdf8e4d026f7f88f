import { describe, expect, it } from 'vitest'
import { theilSen } from '../../lib/rules/statistics/theil-sen.ts'

describe('theilSen', () => {
  it('gives the slope and 95% interval that the R package statpsych documents, ties in x included', () => {
    // Source: rdrr.io/cran/statpsych/man/ci.theil.html, "Should return: 0.5 … 0.3243243 0.75". Confidence: published.
    const y = [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19]
    const x = [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51]
    const fit = theilSen(x.map((x, i) => ({ x, y: y[i] ?? Number.NaN })))
    if (!fit.enough) throw new Error('fifteen points are enough')
    expect(fit.slope).toBeCloseTo(0.5, 12)
    expect(fit.low).toBeCloseTo(0.3243243, 7)
    expect(fit.high).toBeCloseTo(0.75, 12)
  })
  it('gives what SciPy gives for the series of the Mann–Kendall example', () => {
    // scipy 1.17.1: stats.theilslopes(y) # 0.566667, 11.966667, 0.325, 0.866667 (our own call of another implementation)
    const y = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7]
    const fit = theilSen(y.map((y, x) => ({ x, y })))
    if (!fit.enough) throw new Error('fourteen points are enough')
    expect(fit.slope).toBeCloseTo(0.566667, 6)
    expect(fit.intercept).toBeCloseTo(11.966667, 6)
    expect(fit.low).toBeCloseTo(0.325, 6)
    expect(fit.high).toBeCloseTo(0.866667, 6)
  })
})
