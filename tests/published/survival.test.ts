import { describe, expect, it } from 'vitest'
import { incidence } from '../../lib/audit/statistics/aalen-johansen.ts'
import { clusteredError } from '../../lib/audit/statistics/clustered-survival.ts'
import { kaplanMeier, logLogInterval, medianWait } from '../../lib/audit/statistics/kaplan-meier.ts'
import { logRank } from '../../lib/audit/statistics/log-rank.ts'

/**
 * Source: Freireich et al., Blood 1963;21:699, weeks of remission in acute leukaemia, 6-MP against placebo; curve and log-rank as
 * many textbooks print them. Confidence: published, secondary copy. Standard errors and medians: arithmetic, recomputed.
 */
const waits = (text: string) =>
  text.split(' ').map((one) => ({ time: Number.parseFloat(one), event: !one.endsWith('+') }))
const mercaptopurine = waits('6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+')
const placebo = waits('1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23')

describe('remission on 6-MP', () => {
  const steps = kaplanMeier(mercaptopurine)

  it('has the printed curve', () => {
    expect(steps.map(({ time, atRisk }) => [time, atRisk])).toEqual([
      [6, 21],
      [7, 17],
      [10, 15],
      [13, 12],
      [16, 11],
      [22, 7],
      [23, 6],
    ])
    const printed = [0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482]
    for (const [i, survival] of printed.entries()) expect(steps[i]?.survival).toBeCloseTo(survival, 4)
  })

  it('has Greenwood’s standard errors', () => {
    const errors = [0.0764, 0.0869, 0.0963, 0.1068, 0.1141, 0.1282, 0.1346]
    for (const [i, se] of errors.entries()) expect(steps[i]?.se).toBeCloseTo(se, 4)
  })

  it('has Greenwood’s standard errors by the jackknife too, with one wait a person', () => {
    // Source: R package survival, tests/survfit1.R: with one observation per subject both are equal.
    const errorOf = clusteredError(
      mercaptopurine.map((wait, i) => ({ ...wait, cluster: `p${i}` })),
      steps,
    )
    for (const step of steps) expect(errorOf(step)).toBeCloseTo(step.se, 12)
  })

  it('has the medians 23 and 8, and the intervals that log–log limits give', () => {
    // From memory: R survfit(Surv(time, event) ~ 1, conf.type = "log-log") and SAS LIFETEST print 13 to none, and 4 to 11.
    expect(medianWait(steps)).toEqual({ median: 23, low: 13, high: null })
    expect(medianWait(kaplanMeier(placebo))).toEqual({ median: 8, low: 4, high: 11 })
  })

  it('has the log–log interval of the first step', () => {
    // From memory: R summary(survfit(…, conf.type = "log-log")): at 6 weeks 0.857, 0.620 to 0.952.
    const interval = logLogInterval(steps[0]?.survival ?? 0, steps[0]?.se ?? 0)
    expect(interval?.low).toBeCloseTo(0.62, 3)
    expect(interval?.high).toBeCloseTo(0.952, 3)
  })

  it('differs from placebo by the printed log-rank test', () => {
    const test = logRank(mercaptopurine, placebo)
    expect(test?.observed).toEqual([9, 21])
    expect(test?.expected[0]).toBeCloseTo(19.25, 2)
    expect(test?.expected[1]).toBeCloseTo(10.75, 2)
    expect(test?.chiSquared).toBeCloseTo(16.79, 2)
    expect(test?.p.toExponential(2)).toBe('4.17e-5')
  })
})

/**
 * Source: Satagopan et al., Br J Cancer 2004;91:1229, Table 2 (PMC2410013): 305 patients with breast cancer, the first nine by their
 * time; 1: died of it, 2: died otherwise. The rest were followed for longer. Confidence: published. The table adds up its rounded
 * percentages (0.3, 0.6, 0.9, 1.2), so its steps are what is held to.
 */
it('gives the cumulative incidence of the worked example of competing risks', () => {
  const first: [number, number][] = [
    [7, 0],
    [10, 1],
    [14, 0],
    [16, 1],
    [18, 2],
    [23, 1],
    [24, 0],
    [26, 2],
    [27, 1],
  ]
  const rest = Array.from({ length: 296 }, (): [number, number] => [60, 0])
  const all = [...first, ...rest].map(([time, cause], i) => ({ time, cause, cluster: `p${i}` }))
  const percent = [7, 10, 16, 23, 27].map((by) => incidence(all, 1, by).share * 100)
  const steps = percent.map((share, i) => (share - (percent[i - 1] ?? 0)).toFixed(1))
  expect(steps).toEqual(['0.0', '0.3', '0.3', '0.3', '0.3'])
  const survival = kaplanMeier(all.map(({ time, cause }) => ({ time, event: cause > 0 })))
  expect(survival.map((step) => (step.survival * 100).toFixed(1))).toEqual([
    '99.7',
    '99.3',
    '99.0',
    '98.7',
    '98.3',
    '98.0',
  ])
})

/**
 * Source: R package ggsurvfit, manual of tidy_cuminc: deaths from cancer on drug A in tidycmprsk’s trial: 98 at risk, one gone before by
 * what competes, then one death and another: 0.0102 (0.000884 to 0.0503) and 0.0204 (0.00390 to 0.0652), errors 0.0102 and 0.0144.
 * Confidence: published. That the first was gone by what competes: by arithmetic, since 0.0102 is 1 of 98 and not 1 of 97. R’s error there
 * is Aalen’s, which is 1% above the jackknife: so it is held to 2%.
 */
it('gives the printed intervals of a cumulative incidence', () => {
  const all = [
    { time: 3.53, cause: 2 },
    { time: 7.27, cause: 1 },
    { time: 7.38, cause: 1 },
    ...Array.from({ length: 95 }, () => ({ time: 24, cause: 0 })),
  ].map((one, i) => ({ ...one, cluster: `p${i}` }))
  const printed = [
    [7.27, 0.0102, 0.0102, 0.000884, 0.0503],
    [7.38, 0.0204, 0.0144, 0.0039, 0.0652],
  ] as const
  for (const [by, share, se, low, high] of printed) {
    const found = incidence(all, 1, by)
    expect(found.share).toBeCloseTo(share, 4)
    expect(Math.abs(found.se / se - 1)).toBeLessThan(0.02)
    expect(Math.abs((found.low ?? 0) / low - 1)).toBeLessThan(0.02)
    expect(Math.abs((found.high ?? 0) / high - 1)).toBeLessThan(0.02)
  }
})
