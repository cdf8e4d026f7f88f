import fc from 'fast-check'
import jStat from 'jstat'
import * as simple from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { ewma } from '../../lib/rules/statistics/ewma.ts'
import { mad } from '../../lib/rules/statistics/mad.ts'
import { mannKendall } from '../../lib/rules/statistics/mann-kendall.ts'
import { median } from '../../lib/rules/statistics/median.ts'
import { normalQuantile } from '../../lib/rules/statistics/normal-quantile.ts'
import { theilSen } from '../../lib/rules/statistics/theil-sen.ts'
import { wilson } from '../../lib/rules/statistics/wilson.ts'
import { xmr } from '../../lib/rules/statistics/xmr.ts'

/** Our statistics against simple-statistics 7 and jStat 1.9 on random data: two implementations that others wrote. */
const volume = fc.double({ min: -500, max: 5000, noNaN: true, noDefaultInfinity: true })
const volumes = (minLength: number) => fc.array(volume, { minLength, maxLength: 40 })
const near = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))

describe('on random data', () => {
  it('median is that of jStat', () => {
    fc.assert(fc.property(volumes(1), (values) => near(median(values), jStat.median(values))))
  })
  it('mad is 1.4826 of that of simple-statistics', () => {
    fc.assert(
      fc.property(volumes(1), (values) =>
        near(mad(values), simple.medianAbsoluteDeviation(values) * 1.482602218505602),
      ),
    )
  })
  it('the chart of individuals has the mean of jStat and the mean of its absolute differences', () => {
    fc.assert(
      fc.property(volumes(2), (values) => {
        const chart = xmr(values)
        const ranges = jStat.diff(values).map(Math.abs)
        return (
          chart.enough &&
          near(chart.mean, jStat.mean(values)) &&
          near(chart.meanMovingRange, jStat.mean(ranges))
        )
      }),
    )
  })
  it('each average of the chart with memory is the weighted mean that its definition gives, written out', () => {
    fc.assert(
      fc.property(volumes(1), fc.double({ min: 0.05, max: 1, noNaN: true }), (values, lambda) => {
        const { averages } = ewma(values, { target: 100, sigma: 1, lambda, width: 3 })
        const weights = values.map((_, i) => lambda * (1 - lambda) ** (values.length - 1 - i))
        const written =
          simple.sum(values.map((value, i) => value * (weights[i] ?? 0))) +
          100 * (1 - lambda) ** values.length
        return near(averages.at(-1) ?? Number.NaN, written)
      }),
    )
  })
  it('the p of the trend test is that of jStat for the same z', () => {
    fc.assert(
      fc.property(volumes(10), (values) => {
        const test = mannKendall(values)
        return test.enough && Math.abs(test.pRise - (1 - jStat.normal.cdf(test.z, 0, 1))) < 2e-7
      }),
    )
  })
  it('S of the trend test is Kendall’s tau times the number of pairs, counted by rank', () => {
    fc.assert(
      fc.property(fc.uniqueArray(volume, { minLength: 10, maxLength: 25 }), (values) => {
        const test = mannKendall(values)
        const ranks = jStat.rank(values)
        const pairs = ranks.flatMap((a, i) => ranks.slice(i + 1).map((b) => Math.sign(b - a)))
        return test.enough && test.s === simple.sum(pairs)
      }),
    )
  })
  it('the slope of points on a line is that of least squares', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: -500, max: 500 }),
        (slope, intercept) => {
          const points = [0, 1, 3, 4, 7, 9].map((x) => ({ x, y: intercept + slope * x }))
          const fit = theilSen(points)
          const { m, b } = simple.linearRegression(points.map(({ x, y }) => [x, y]))
          return fit.enough && near(fit.slope, m) && Math.abs(fit.intercept - b) < 1e-6
        },
      ),
    )
  })
  it('the normal quantiles are those of jStat', () => {
    for (const level of [80, 90, 95, 99] as const)
      expect(normalQuantile(level)).toBeCloseTo(jStat.normal.inv(0.5 + level / 200, 0, 1), 7)
  })
  it('a Wilson limit is where the score test just reaches its quantile', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.nat(400), (trials, seen) => {
        const successes = seen % (trials + 1)
        const interval = wilson(successes, trials)
        if (!interval.enough) return false
        const score = (share: number) =>
          (successes / trials - share) / Math.sqrt((share * (1 - share)) / trials)
        const quantile = jStat.normal.inv(0.975, 0, 1)
        const low = successes === 0 || Math.abs(score(interval.low) - quantile) < 1e-5
        const high = successes === trials || Math.abs(score(interval.high) + quantile) < 1e-5
        return low && high
      }),
    )
  })
})
