import { assess } from '../../rules/assess.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { bareSum } from './bare-sum.ts'
import { factsOf } from './engine-facts.ts'
import { generalEngine } from './general-engine.ts'
import { runPanel } from './panel.ts'
import { asOf, patient, type Span } from './patient.ts'
import { type Contestant, millisecondsOf, ratioOf, type Turns, takeTurns } from './timing.ts'

export interface Size extends Turns {
  readonly patients: number
}

const round = (value: number) => Number(value.toPrecision(3))
type Range = { value: number; low?: number; high?: number }
const figure = (
  name: string,
  unit: string,
  range: Range,
  aim?: { text: string; holds: boolean },
): Figure => ({
  name,
  value: round(range.value),
  unit,
  low: range.low === undefined ? null : round(range.low),
  high: range.high === undefined ? null : round(range.high),
  aim: aim?.text ?? null,
  holds: aim?.holds ?? null,
})

const quiet: Span = { days: 90, standingDays: 0 }
/** Three findings that nobody has seen to for a month. */
const standing: Span = { days: 90, standingDays: 30 }
const short: Span = { days: 30, standingDays: 0 }
const long: Span = { days: 360, standingDays: 0 }
const shortStanding: Span = { days: 30, standingDays: 10 }
const longStanding: Span = { days: 360, standingDays: 120 }

function assessing(name: string, span: Span): Contestant {
  const record = patient(1, span)
  return { name, run: () => assess(record, standardRuleSet, asOf) }
}

function summing(name: string, span: Span): Contestant {
  const record = patient(1, span)
  return { name, run: () => bareSum(record) }
}

function deciding(name: string, span: Span): Contestant {
  const decide = generalEngine()
  const record = patient(1, span)
  const usual = assess(record, standardRuleSet, asOf).drains[0]?.baselineMlPerDay ?? null
  const facts = factsOf(record, asOf, usual)
  return { name, run: () => decide(facts) }
}

const contestants = () => [
  assessing('quiet', quiet),
  assessing('standing', standing),
  assessing('standing a week', { days: 90, standingDays: 7 }),
  assessing('short', short),
  assessing('long', long),
  assessing('short standing', shortStanding),
  assessing('long standing', longStanding),
  summing('sum', quiet),
  deciding('engine', quiet),
  deciding('engine standing', standing),
]

const atMost = (limit: number, value: number) => ({ text: `≤ ${limit}`, holds: value <= limit })

/** All figures of the bench, in one run. Low and high are the smallest and the largest round. */
export async function measure(size: Size, progress: { turns: Progress; panel: Progress }): Promise<Figure[]> {
  const panel = runPanel(size.patients, 90, (done) => progress.panel.at(done))
  progress.panel.end()
  const times = await takeTurns(contestants(), size, (done) => progress.turns.at(done))
  progress.turns.end()

  const ratio = (name: string, above: string, below: string, limit?: number): Figure => {
    const range = ratioOf(times, above, below)
    return figure(name, 'ratio', range, limit === undefined ? undefined : atMost(limit, range.value))
  }
  const ms = (name: string, of: string) => figure(name, 'ms', { value: millisecondsOf(times, of) })
  const toSum = ratioOf(times, 'quiet', 'sum')
  return [
    figure('assess-vs-sum', 'ratio', toSum, { text: '< 8', holds: toSum.value < 8 }),
    ratio('assess-vs-sum-standing', 'standing', 'sum'),
    ratio('assess-vs-general-engine', 'quiet', 'engine', 1),
    ratio('assess-vs-general-engine-standing', 'standing', 'engine standing'),
    ratio('assess-standing-month-vs-quiet', 'standing', 'quiet', 3),
    ratio('assess-standing-week-vs-quiet', 'standing a week', 'quiet', 3),
    ratio('assess-growth', 'long', 'short', 12),
    ratio('assess-growth-standing', 'long standing', 'short standing', 12),
    ms('assess-quiet', 'quiet'),
    ms('assess-standing-month', 'standing'),
    ms('sum', 'sum'),
    ms('general-engine', 'engine'),
    figure(`panel-${size.patients}`, 's', { value: panel.seconds }),
    figure(`panel-${size.patients}-assessing`, 's', { value: panel.assessSeconds }),
    figure(`panel-${size.patients}-peak-memory`, 'MB', { value: panel.peakMegabytes }),
  ]
}
