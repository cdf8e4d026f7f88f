import {
  FEW,
  type Figure,
  type FigureChart,
  type FigurePart,
  type FigureWeek,
  type PublishedValue,
} from '../../domain/figures.ts'
import { dayMonth } from '../../domain/local-time.ts'
import { median } from '../../rules/statistics/median.ts'
import { wilson } from '../../rules/statistics/wilson.ts'
import { poissonInterval } from '../statistics/poisson.ts'
import { rateInterval, ratioByCluster, shareInterval } from '../statistics/ratio-by-cluster.ts'
import { runRules } from '../statistics/run-rules.ts'
import { uChart } from '../statistics/u-chart.ts'
import type { Week } from './weeks.ts'

/** What one patient gives to a figure in one week. `week` is its place in the period; `weight` is 1 / probability of being drawn. */
export type Unit = { patient: string; week: number; n: number; d: number; weight?: number }

/**
 * `share`: of things counted; `rate`: events over exposure; `mean`: so much per patient. They differ in their interval and
 * in what is too few.
 */
export type Kind = 'share' | 'rate' | 'mean'

/** A patient behind a figure or one of its parts. */
export type Behind = { patient: string; isCounted: boolean }
export type Made = { figure: Figure; behind: (part: string | null) => Behind[] }

export type Part = { key: string; label: string; units: readonly Unit[]; published?: PublishedValue[] }
export type Plan = Pick<Figure, 'name' | 'group' | 'label' | 'unit' | 'counts' | 'method' | 'doesNotSay'> & {
  kind: Kind
  units: readonly Unit[]
  /** Of a mean per patient: the weeks' own units, where a patient of several weeks counts in each. */
  weekly?: readonly Unit[]
  parts?: readonly Part[]
  beside?: Figure['beside']
  published?: PublishedValue[]
  /** Why it is not shown, whatever was counted. */
  withheld?: string | null
}

export const NOTHING = 'Nothing to count in this period.'
export const TOO_FEW = `Fewer than ${FEW}: the counts stand alone.`

/** Makes a figure from what the patients gave to it. */
export function made(plan: Plan, weeks: readonly Week[]): Made {
  const { kind, units, weekly = units, parts = [], withheld = null } = plan
  const scale = scaleOf(plan.unit)
  const hide = <T extends Amount>(amount: T): T =>
    withheld === null ? amount : { ...amount, value: null, low: null, high: null, why: withheld }
  const behind = behindOf(units)
  const points = pointsOf(weekly, kind, scale, weeks)
  const { weekly: rows, chart } =
    kind === 'rate' ? controlChart(points, scale, weeks) : runChart(points, weeks)
  const { name, group, label, unit, counts, method, doesNotSay } = plan
  return {
    figure: {
      name,
      group,
      label,
      unit,
      ...hide(amountOf(units, kind, scale)),
      counts,
      method,
      doesNotSay,
      beside: plan.beside ?? [],
      published: plan.published ?? [],
      weekly: withheld === null && weekly.some(({ week }) => week >= 0) ? rows : [],
      chart: withheld === null ? chart : { kind: chart.kind, centre: null, signals: [] },
      parts: parts.map(
        ({ key, label: own, units: of, published = [] }): FigurePart => ({
          key,
          label: own,
          ...hide(amountOf(of, kind, scale)),
          published,
        }),
      ),
      patients: behind.map(({ patient }) => patient),
      counted: behind.filter(({ isCounted }) => isCounted).length,
    },
    behind: (part) => {
      const found = part === null ? null : parts.find(({ key }) => key === part)
      return part === null ? behind : found ? behindOf(found.units) : []
    },
  }
}

const scaleOf = (unit: Figure['unit']) => (unit === 'per-1000-days' ? 1000 : 1)

export type Amount = Pick<Figure, 'value' | 'low' | 'high' | 'numerator' | 'denominator' | 'why'>

/** Sums, the ratio of them, and its interval by patient. */
export function amountOf(units: readonly Unit[], kind: Kind, scale: number): Amount {
  const patients = new Map<string, { n: number; d: number; most: number }>()
  let numerator = 0
  let denominator = 0
  let isWeighted = false
  for (const { patient, n, d, weight = 1 } of units) {
    numerator += n
    denominator += d
    if (weight !== 1) isWeighted = true
    let own = patients.get(patient)
    if (!own) {
      own = { n: 0, d: 0, most: 0 }
      patients.set(patient, own)
    }
    own.n += n * weight
    own.d += d * weight
    own.most += kind === 'share' ? d : n
  }
  denominator = Math.round(denominator * 1e6) / 1e6
  const amount = { value: null, low: null, high: null, numerator, denominator, why: null }
  const ratio = ratioByCluster([...patients.values()])
  if (!ratio || denominator === 0) return { ...amount, why: NOTHING }
  const isRepeated = [...patients.values()].some(({ most }) => most > 1)
  const ends = (): { low: number; high: number } | null => {
    if (kind === 'share') {
      if (isWeighted || isRepeated) return shareInterval(ratio, denominator)
      const interval = wilson(numerator, denominator)
      return interval.enough ? interval : null
    }
    if (kind === 'rate' && (!isRepeated || numerator === 0)) {
      const { low, high } = poissonInterval(numerator)
      return { low: low / denominator, high: high / denominator }
    }
    return rateInterval(ratio)
  }
  const isFew = numerator < FEW || (kind !== 'rate' && denominator < FEW)
  const hasInterval = kind === 'rate' || denominator >= FEW
  const interval = hasInterval ? ends() : null
  return {
    ...amount,
    value: isFew ? null : ratio.value * scale,
    low: interval && interval.low * scale,
    high: interval && interval.high * scale,
    why: isFew ? TOO_FEW : null,
  }
}

/** Who is in it: those in the numerator first, who gave most before the others. */
export function behindOf(units: readonly Unit[]): Behind[] {
  const patients = new Map<string, { n: number; d: number }>()
  for (const { patient, n, d } of units) {
    const own = patients.get(patient)
    if (own) {
      own.n += n
      own.d += d
    } else patients.set(patient, { n, d })
  }
  return [...patients]
    .filter(([, { n, d }]) => n > 0 || d > 0)
    .toSorted(([a, one], [b, other]) => other.n - one.n || (a < b ? -1 : 1))
    .map(([patient, { n }]) => ({ patient, isCounted: n > 0 }))
}

type Point = Pick<FigureWeek, 'week' | 'numerator' | 'denominator' | 'value'>

/** Sums and value of each week. A rate has a point wherever there was exposure; a share only of enough. */
function pointsOf(units: readonly Unit[], kind: Kind, scale: number, weeks: readonly Week[]): Point[] {
  const sums = weeks.map(() => ({ n: 0, d: 0, weightedN: 0, weightedD: 0 }))
  for (const { week, n, d, weight = 1 } of units) {
    const sum = sums[week]
    if (!sum) continue
    sum.n += n
    sum.d += d
    sum.weightedN += n * weight
    sum.weightedD += d * weight
  }
  return weeks.map(({ monday }, i) => {
    const { n = 0, d = 0, weightedN = 0, weightedD = 0 } = sums[i] ?? {}
    const isEnough = kind === 'rate' ? d > 0 : d >= FEW
    return {
      week: monday,
      numerator: n,
      denominator: Math.round(d * 1e6) / 1e6,
      value: isEnough ? (weightedN / weightedD) * scale : null,
    }
  })
}

type Charted = { weekly: FigureWeek[]; chart: FigureChart }

/**
 * Weeks of a rate between the limits of a u-chart. With less than one event a week the limits, which take counts for nearly normal, call
 * a single week of two or three events a signal: then the weeks stand without them (local choice).
 */
function controlChart(points: readonly Point[], scale: number, weeks: readonly Week[]): Charted {
  const events = points.reduce((sum, { numerator }) => sum + numerator, 0)
  const isEnough = events >= Math.max(FEW, weeks.length)
  const chart = isEnough
    ? uChart(points.map(({ numerator, denominator }) => ({ events: numerator, exposure: denominator })))
    : null
  const centre = chart === null ? null : chart.centre * scale
  const weekly = points.map((point, i) => {
    const limits = chart?.limits[i]
    return {
      ...point,
      lower: limits ? limits.lower * scale : null,
      upper: limits ? limits.upper * scale : null,
    }
  })
  const beyond = weekly.flatMap(({ week, value, lower, upper }) => {
    if (value === null || lower === null || upper === null) return []
    if (value > upper) return [`Week of ${dayMonth(week)}: above the upper limit.`]
    return value < lower ? [`Week of ${dayMonth(week)}: below the lower limit.`] : []
  })
  const runs = centre === null ? [] : runsIn(points, centre, weeks).filter(({ kind }) => kind === 'shift')
  return {
    weekly,
    chart: { kind: 'u-chart', centre, signals: [...beyond, ...runs.map(({ text }) => text)] },
  }
}

/** Weeks about their median. */
export function runChart(points: readonly Point[], weeks: readonly Week[]): Charted {
  const values = points.flatMap(({ value }) => (value === null ? [] : [value]))
  const centre = values.length > 0 ? median(values) : null
  const runs = centre === null ? [] : runsIn(points, centre, weeks)
  return {
    weekly: points.map((point) => ({ ...point, lower: null, upper: null })),
    chart: { kind: 'run-chart', centre, signals: runs.map(({ text }) => text) },
  }
}

function runsIn(points: readonly Point[], centre: number, weeks: readonly Week[]) {
  const day = (i: number) => dayMonth(weeks[i]?.monday ?? '')
  return runRules(
    points.map(({ value }) => value),
    centre,
  ).map(({ kind, from, to, up }) => ({
    kind,
    text:
      kind === 'shift'
        ? `Weeks of ${day(from)} to ${day(to)}: six or more in a row ${up ? 'above' : 'below'} the middle.`
        : `Weeks of ${day(from)} to ${day(to)}: five or more in a row ${up ? 'rising' : 'falling'}.`,
  }))
}
