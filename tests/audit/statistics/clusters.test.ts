import { sampleStandardDeviation } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { incidence } from '../../../lib/audit/statistics/aalen-johansen.ts'
import { agreement } from '../../../lib/audit/statistics/agreement.ts'
import { clusteredError } from '../../../lib/audit/statistics/clustered-survival.ts'
import { kaplanMeier, logLogInterval, medianWait } from '../../../lib/audit/statistics/kaplan-meier.ts'
import {
  rateInterval,
  ratioByCluster,
  shareInterval,
} from '../../../lib/audit/statistics/ratio-by-cluster.ts'
import { wilson } from '../../../lib/rules/statistics/wilson.ts'

/** A spread of numbers without chance. */
const spread = (n: number, most: number) => Array.from({ length: n }, (_, i) => (i * 37) % most)

describe('a ratio over patients', () => {
  it('has the error of a mean where each patient counts once', () => {
    const values = spread(23, 17)
    const ratio = ratioByCluster(values.map((n) => ({ n, d: 1 })))
    expect(ratio?.se).toBeCloseTo(sampleStandardDeviation(values) / Math.sqrt(23), 12)
  })

  it('has nearly the error that leaving out one patient after another shows', () => {
    const shares = spread(60, 13).map((n, i) => ({ n, d: 5 + (i % 7) }))
    const without = shares.map((_, i) => ratioByCluster(shares.filter((_, k) => k !== i))?.value ?? 0)
    const mean = without.reduce((sum, one) => sum + one, 0) / without.length
    const jackknife = Math.sqrt((59 / 60) * without.reduce((sum, one) => sum + (one - mean) ** 2, 0))
    expect((ratioByCluster(shares)?.se ?? 0) / jackknife).toBeCloseTo(1, 1.5)
  })

  it('does not take a flag that one patient raises ten times for ten patients', () => {
    const once = ratioByCluster([...Array(40)].map((_, i) => ({ n: i % 2, d: 1 })))
    const often = ratioByCluster([...Array(4)].map((_, i) => ({ n: 10 * (i % 2), d: 10 })))
    if (!once || !often) throw new Error('there is a ratio')
    const narrow = shareInterval(once, 40)
    const wide = shareInterval(often, 40)
    expect(wide.high - wide.low).toBeGreaterThan(2 * (narrow.high - narrow.low))
  })

  it('is close to Wilson’s interval where nobody repeats', () => {
    const ratio = ratioByCluster([...Array(200)].map((_, i) => ({ n: i < 46 ? 1 : 0, d: 1 })))
    const interval = wilson(46, 200)
    if (!ratio || !interval.enough) throw new Error('there is a ratio')
    expect(shareInterval(ratio, 200).low).toBeCloseTo(interval.low, 3)
    expect(shareInterval(ratio, 200).high).toBeCloseTo(interval.high, 3)
  })

  it('claims no certainty where all patients are alike, or there is one', () => {
    const none = ratioByCluster([...Array(6)].map(() => ({ n: 0, d: 8 })))
    const one = ratioByCluster([{ n: 3, d: 4 }])
    if (!none || !one) throw new Error('there is a ratio')
    expect(shareInterval(none, 48).high).toBeGreaterThan(0.3) // as 0 of 6 patients, not as 0 of 48
    expect(shareInterval(one, 4).low).toBeLessThan(0.2)
    expect(rateInterval(one)).toBeNull()
    expect(ratioByCluster([{ n: 0, d: 0 }])).toBeNull()
  })

  it('claims less of few that weigh much where all are alike', () => {
    // Nineteen days that were drawn for certain and one that stands for two hundred, on none of which a call was missed.
    const ratio = ratioByCluster([...Array(19).fill({ n: 0, d: 1 }), { n: 0, d: 200 }])
    if (!ratio) throw new Error('there is a ratio')
    expect(shareInterval(ratio, 20).high).toBeGreaterThan(0.7) // as 0 of 1.2, not as 0 of 20
  })

  it('weighs what was drawn with half the chance twice', () => {
    // Two items drawn for certain, one of them right; two drawn one in four, both wrong.
    const ratio = ratioByCluster([
      { n: 1, d: 1 },
      { n: 0, d: 1 },
      { n: 0, d: 4 },
      { n: 0, d: 4 },
    ])
    expect(ratio?.value).toBe(0.1)
  })
})

describe('the agreement of two readings', () => {
  const items = spread(40, 9).map((at, i) => ({
    first: at % 3,
    second: i % 4 === 0 ? (at + 1) % 3 : at % 3,
    cluster: `p${i}`,
  }))

  it('is not surer for items that are told twice', () => {
    const once = agreement(items, 3).kappa
    const twice = agreement([...items, ...items], 3).kappa
    expect(twice?.value).toBeCloseTo(once?.value ?? 0, 12)
    expect(twice?.se).toBeCloseTo(once?.se ?? 0, 12)
  })

  it('has nearly the error that leaving out one patient after another shows', () => {
    const ofFew = items.map((item, i) => ({ ...item, cluster: `p${i % 20}` }))
    const without = Array.from(
      { length: 20 },
      (_, p) =>
        agreement(
          ofFew.filter(({ cluster }) => cluster !== `p${p}`),
          3,
        ).kappa?.value ?? 0,
    )
    const mean = without.reduce((sum, one) => sum + one, 0) / 20
    const jackknife = Math.sqrt((19 / 20) * without.reduce((sum, one) => sum + (one - mean) ** 2, 0))
    expect((agreement(ofFew, 3).kappa?.se ?? 0) / jackknife).toBeCloseTo(1, 1)
  })

  it('is refused of nothing, and of a category that is none', () => {
    expect(() => agreement([], 3)).toThrow(RangeError)
    expect(() => agreement([{ first: 3, second: 0, cluster: 'a' }], 3)).toThrow(RangeError)
  })
})

describe('waits of people who wait again and again', () => {
  const people = spread(30, 11).map((time, i) => ({ time: time + 1, event: i % 4 !== 0 }))

  it('are not worth more for being told twice', () => {
    const once = people.map((wait, i) => ({ ...wait, cluster: `p${i}` }))
    const twice = [...once, ...once]
    const step = kaplanMeier(once)[4]
    const doubled = kaplanMeier(twice)[4]
    if (!step || !doubled) throw new Error('there are steps')
    expect(doubled.survival).toBeCloseTo(step.survival, 12)
    expect(doubled.se).toBeCloseTo(step.se / Math.SQRT2, 12)
    expect(clusteredError(twice, kaplanMeier(twice))(doubled)).toBeCloseTo(step.se, 12)
  })

  it('have the same incidence and error as the curve where nothing competes', () => {
    const steps = kaplanMeier(people)
    const waits = people.map(({ time, event }, i) => ({ time, cause: event ? 1 : 0, cluster: `p${i}` }))
    for (const step of steps.slice(0, -1)) {
      const { share, se } = incidence(waits, 1, step.time)
      expect(share).toBeCloseTo(1 - step.survival, 12)
      expect(se).toBeCloseTo(step.se, 12)
    }
  })

  it('lose to what competes: the shares and who is left make a whole', () => {
    const waits = people.map(({ time, event }, i) => ({
      time,
      cause: event ? 1 + (i % 3) : 0,
      cluster: `p${i % 9}`,
    }))
    const met = [1, 2, 3].map((cause) => incidence(waits, cause, 7).share)
    const left = kaplanMeier(people).findLast(({ time }) => time <= 7)?.survival ?? 1
    expect(met.reduce((sum, one) => sum + one, left)).toBeCloseTo(1, 12)
  })

  it('have the error that leaving out one person after another shows', () => {
    const waits = people.map(({ time, event }, i) => ({
      time,
      cause: event ? 1 + (i % 2) : 0,
      cluster: `p${i}`,
    }))
    const without = waits.map(
      (_, i) =>
        incidence(
          waits.filter((_, k) => k !== i),
          1,
          6,
        ).share,
    )
    const mean = without.reduce((sum, one) => sum + one, 0) / 30
    const jackknife = Math.sqrt((29 / 30) * without.reduce((sum, one) => sum + (one - mean) ** 2, 0))
    expect(incidence(waits, 1, 6).se / jackknife).toBeCloseTo(1, 1)
  })

  it('have the end of the median’s interval where the curve’s own interval first comes under a half', () => {
    // Two are left at the end: after the first of them is called the upper end is over a half again.
    const at = (time: number, times: number, event = true) =>
      Array.from({ length: times }, () => ({ time, event }))
    const steps = kaplanMeier([...at(1, 30), ...at(2, 30), ...at(5, 38, false), ...at(6, 1), ...at(7, 1)])
    const ends = steps.map(({ survival, se }) => (logLogInterval(survival, se)?.high ?? survival) <= 0.5)
    expect(ends).toEqual([false, true, false, true])
    expect(medianWait(steps)).toEqual({ median: 2, low: 2, high: 2 })
  })

  it('are refused where a time is none', () => {
    expect(() => kaplanMeier([{ time: -1, event: true }])).toThrow(RangeError)
    expect(() => incidence([{ time: Number.NaN, cause: 1, cluster: 'a' }], 1, 2)).toThrow(RangeError)
  })
})
