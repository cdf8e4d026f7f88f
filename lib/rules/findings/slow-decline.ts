import { less } from '../compare.ts'
import type { DayOutput } from '../series/spread.ts'
import type { Stretch } from '../series/stretches.ts'
import type { DrainView } from '../series/view.ts'
import { ewma } from '../statistics/ewma.ts'
import { mad } from '../statistics/mad.ts'
import { median } from '../statistics/median.ts'
import type { Telling } from './rule.ts'
import { mL, netOutput, percent, threshold } from './telling.ts'

/** A chart with memory over a drain's whole days, in units of its own spread. */
export interface SlowChart {
  /** The charted days, and the average after each, 0 at the drain's own centre. */
  days: DayOutput[]
  averages: readonly number[]
  /** Under this an average is a signal. */
  lower: number
  centreMl: number
  sigmaMl: number
}

/**
 * Charts the latest whole days of a steady drain against those before them.
 *
 * Method: exponentially weighted moving average (NIST/SEMATECH e-Handbook 6.3.2.4) of standardised days; centre
 * and spread are the median and the median absolute deviation of up to three weeks before. Each day is held
 * within bounds, so that one or two days of nothing cannot signal: the abrupt form tells of those. Settings:
 * docs/decisions/slow-change-chart.md.
 *
 * @returns null where there are too few clean days, or too few since staff last closed the fall
 */
export function slowChart(drain: DrainView): SlowChart | null {
  const { limits, output } = drain
  const { clean } = output
  const closedAt = drain.closedAt('output-decline') ?? Number.NEGATIVE_INFINITY
  const free = clean.length - clean.findLastIndex((day) => day.end <= closedAt) - 1
  const count = Math.min(limits.slowDays, clean.length - limits.slowReferenceMinDays, free)
  if (count < limits.slowMinDays) return null
  const reference = clean
    .slice(0, -count)
    .slice(-limits.slowReferenceDays)
    .map((day) => day.netMl)
  const centreMl = median(reference)
  const sigmaMl = Math.max(mad(reference), limits.slowSigmaShare * centreMl, limits.slowSigmaMl)
  const days = clean.slice(-count)
  const bound = limits.slowBoundSigma
  const values = days.map((day) => Math.min(bound, Math.max(-bound, (day.netMl - centreMl) / sigmaMl)))
  const { averages, lower } = ewma(values, {
    target: 0,
    sigma: 1,
    lambda: limits.slowLambda,
    width: limits.slowWidth,
  })
  return { days, averages, lower, centreMl, sigmaMl }
}

/** A sustained downward shift of whole days, as a finding tells it; null where the chart shows none. */
export function slowDecline(drain: DrainView): { tell(): Telling } | null {
  const chart = slowChart(drain)
  const latest = chart?.averages.at(-1)
  if (!chart || latest === undefined || !less(latest, chart.lower)) return null
  const { limits, output } = drain
  return {
    tell: () => {
      const low = chart.days.slice(-limits.slowMinDays)
      const level = median(low.map((day) => day.netMl))
      const from = [...new Set(low.flatMap((day) => day.from))].flatMap((i) => output.own[i] ?? [])
      return {
        says: `Net output has sunk: ${mL(level)} a day over the latest ${low.length} whole days, ${percent(level / chart.centreMl)} of the ${mL(chart.centreMl)}/day before them (control chart ${latest.toFixed(2)}, limit ${chart.lower.toFixed(2)}).`,
        ends: 'It ends when whole days are again near those before, when staff close the flag, or with a new tube.',
        evidence: netOutput(level, (from.at(-1) as Stretch).end, from),
        threshold: threshold('slowWidth', limits),
      }
    },
  }
}
