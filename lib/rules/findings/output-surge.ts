import { isBiliary, isUrinary, type Urgency, urgencyRank } from '../../domain/words.ts'
import { atLeast, more } from '../compare.ts'
import { covered, type Last24 } from '../series/output.ts'
import { counting, generals } from '../series/statements.ts'
import type { Stretch } from '../series/stretches.ts'
import { ofSeries } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet, type Verdict } from './rule.ts'
import { localTime, mL, netOutput, reading, stated, threshold } from './telling.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** Urinary: hours on end at a high rate, in the last 24 h before now. */
function fastRun(drain: DrainView, at: number): Verdict {
  const { limits, output } = drain
  let run: Stretch[] = []
  let length = 0
  for (let i = output.own.length - 1; i >= 0; i--) {
    const stretch = output.own[i] as Stretch
    if (stretch.netMl !== null && atLeast(stretch.netMl / stretch.hours, limits.surgeMlPerHour)) {
      run.unshift(stretch)
      length += stretch.end - stretch.start
      continue
    }
    if (length >= limits.surgeHours * HOUR_MS) break
    run = []
    length = 0
    if (stretch.end + DAY_MS <= at) break
  }
  const last = run.at(-1)
  if (!last || length < limits.surgeHours * HOUR_MS || last.end + DAY_MS <= at) return quiet()
  const netMl = run.reduce((sum, s) => sum + (s.netMl ?? 0), 0)
  return found(
    'within-1h',
    () => ({
      says: `${mL(netMl)} in ${Math.round((length / HOUR_MS) * 10) / 10} h to ${localTime(drain.view.record.zone, last.end)}, ${limits.surgeMlPerHour} mL/h or more throughout.`,
      ends: 'It ends 24 h after the last such emptying, or with a new tube.',
      evidence: netOutput(netMl, last.end, run),
      threshold: threshold('surgeMlPerHour', limits),
    }),
    last.end + DAY_MS,
  )
}

/** Urinary and biliary: a day's volume over a fixed limit. */
function muchInADay(drain: DrainView, at: number): Verdict {
  const last = drain.output.last24
  if (!last) return quiet()
  const { limits, view, facts } = drain
  if (isUrinary(facts.kind))
    return atLeast(last.netMl, limits.surgeMlPerDay)
      ? overLimit(drain, last, 'within-1h', 'surgeMlPerDay')
      : quiet()
  if (more(last.netMl, limits.biliaryVeryHighMl))
    return overLimit(drain, last, 'within-1h', 'biliaryVeryHighMl')
  if (!more(last.netMl, limits.biliaryHighMl)) return quiet()
  const dizzy = generals(view, at, ['dizzy'])
  return dizzy.lead
    ? overLimit(drain, last, 'within-1h', 'biliaryHighMl', ', with dizziness', dizzy.until)
    : overLimit(drain, last, 'within-24h', 'biliaryHighMl')
}

const overLimit = (
  { limits, view }: DrainView,
  last: Last24,
  urgency: Exclude<Urgency, 'none'>,
  name: 'surgeMlPerDay' | 'biliaryHighMl' | 'biliaryVeryHighMl',
  beside = '',
  next?: number,
): Verdict =>
  found(
    urgency,
    () => ({
      says: `Net output ${mL(last.netMl)} in the 24 h to ${localTime(view.record.zone, last.end)}${beside}; limit ${limits[name]} mL.`,
      ends: 'It ends when 24 h bring less than the limit, or with a new tube.',
      evidence: netOutput(last.netMl, last.end, last.used),
      threshold: threshold(name, limits),
    }),
    next,
  )

/** Resolving: twice the usual and clearly above it. The average of a long stretch is over it all the same. */
function risingAgain(drain: DrainView): Verdict {
  const { last24: last } = drain.output
  const { limits } = drain
  const usual = last?.baseline.mlPerDay
  if (!last || usual == null || !covered(last, limits)) return quiet()
  if (
    !more(last.netMl, limits.resolvingSurgeRatio * usual) ||
    !atLeast(last.netMl - usual, limits.resolvingSurgeMinMl)
  )
    return quiet()
  return found('within-24h', () => ({
    says: `Net output ${mL(last.netMl)} in the 24 h to ${localTime(drain.view.record.zone, last.end)}, over ${limits.resolvingSurgeRatio} × the usual ${mL(usual)}/day of a drain that should dwindle.`,
    ends: `It ends when 24 h bring ${mL(limits.resolvingSurgeRatio * usual)} or less, or with a new tube.`,
    evidence: netOutput(last.netMl, last.end, last.used),
    threshold: threshold('resolvingSurgeRatio', limits),
  }))
}

const bowelOrBile = ['enteric', 'bile-green', 'bile-dark']

/** Collection: fluid that turned to bowel contents or bile after it had looked otherwise with this tube. */
function turned(drain: DrainView, at: number): Verdict {
  const { view, facts, limits } = drain
  const other = view
    .seen(facts.appearances)
    .find((s) => ofSeries(drain.tube, s.when) && !bowelOrBile.includes(s.value))
  if (!other) return quiet()
  const now = counting(
    view,
    facts.appearances,
    (value, s) => bowelOrBile.includes(value) && value !== facts.usualAppearance && s.when > other.when,
    at,
    limits.symptomHoldHours,
  )
  const { lead } = now
  if (!lead) return quiet()
  return found(
    'within-24h',
    () => ({
      says: `The fluid turned from ${other.value} to ${lead.value}, reported ${localTime(view.record.zone, lead.at)}.`,
      ends: 'It ends once the newest report gives another appearance and 24 h have passed, or with a new tube.',
      evidence: [stated(other, 'appearance', other.value), stated(lead, 'appearance', lead.value)],
      threshold: {
        name: 'appearance',
        value: lead.value,
        unit: null,
        source: 'A turn to enteric or bilious fluid suggests a fistula; no study found.',
        confidence: 'common practice, no source',
      },
    }),
    now.until,
  )
}

/** Pleural: too much at one emptying, in the 24 h before now. */
function muchAtOnce(drain: DrainView, at: number): Verdict {
  const { view, facts, limits } = drain
  let worst: Verdict = quiet()
  for (const r of view.seen(facts.readings)) {
    const { volumeMl } = r.value
    if (
      volumeMl === null ||
      !ofSeries(drain.tube, r.when) ||
      r.when + DAY_MS <= at ||
      !more(volumeMl, limits.pleuralHighMl)
    )
      continue
    const name = more(volumeMl, limits.pleuralVeryHighMl) ? 'pleuralVeryHighMl' : 'pleuralHighMl'
    const verdict = found(
      name === 'pleuralVeryHighMl' ? 'within-1h' : 'within-24h',
      () => ({
        says: `${mL(volumeMl)} in one emptying ${localTime(view.record.zone, r.at)}; limit ${limits[name]} mL.`,
        ends: 'It ends 24 h after the emptying, or with a new tube.',
        evidence: [reading(r)],
        threshold: threshold(name, limits),
      }),
      r.when + DAY_MS,
    )
    if (urgencyRank[verdict.urgency] >= urgencyRank[worst.urgency]) worst = verdict
  }
  return worst
}

/**
 * Does a drain bring too much?
 * What is too much differs by kind: relief diuresis, loss of bile, a cavity that fills again, fluid drawn too fast.
 */
export const outputSurge: DrainRule = {
  code: 'output-surge',
  scope: 'drain',
  judge(drain, at) {
    if (drain.tube.cappedSince !== null) return quiet()
    const { kind } = drain.facts
    const verdicts: Verdict[] = []
    if (isUrinary(kind)) verdicts.push(fastRun(drain, at))
    if (isUrinary(kind) || isBiliary(kind)) verdicts.push(muchInADay(drain, at))
    if (drain.course === 'resolving') verdicts.push(risingAgain(drain))
    if (kind === 'collection') verdicts.push(turned(drain, at))
    if (kind === 'pleural') verdicts.push(muchAtOnce(drain, at))
    return verdicts.reduce((worst, v) => {
      const sooner = urgencyRank[v.urgency] - urgencyRank[worst.urgency]
      const longer = sooner === 0 && v.next > worst.next && v.urgency !== 'none'
      const kept = sooner > 0 || longer ? v : worst
      return kept.urgency === 'none' ? quiet(Math.min(worst.next, v.next)) : kept
    }, quiet())
  },
}
