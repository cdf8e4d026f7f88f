import { Engine, type RuleProperties } from 'json-rules-engine'
import { type FindingCode, type Urgency, urgencyRank } from '../../domain/words.ts'

type Condition = { fact: string; operator: string; value: unknown }
const is = (fact: string, value: unknown): Condition => ({ fact, operator: 'equal', value })
const among = (fact: string, value: unknown[]): Condition => ({ fact, operator: 'in', value })
const holds = (fact: string, value: unknown): Condition => ({ fact, operator: 'contains', value })
const atLeast = (fact: string, value: number): Condition => ({
  fact,
  operator: 'greaterThanInclusive',
  value,
})
const above = (fact: string, value: number): Condition => ({ fact, operator: 'greaterThan', value })
const atMost = (fact: string, value: number): Condition => ({ fact, operator: 'lessThanInclusive', value })
const below = (fact: string, value: number): Condition => ({ fact, operator: 'lessThan', value })

const steady = [is('course', 'steady'), is('capped', false)]
const resolving = [is('course', 'resolving'), is('capped', false)]
const urinary = among('kind', ['nephrostomy', 'nephroureteral'])
const biliary = among('kind', ['biliary', 'cholecystostomy'])

const rule = (code: FindingCode, urgency: Urgency, ...all: Condition[]): RuleProperties => ({
  conditions: { all },
  event: { type: code, params: { urgency } },
})
const either = (code: FindingCode, urgency: Urgency, all: Condition[], any: Condition[]): RuleProperties => ({
  conditions: { all: [...all, { any }] },
  event: { type: code, params: { urgency } },
})

/** The table of findings, as a rules engine for any trade would be given it: one rule for each urgency of each finding. */
const rules: RuleProperties[] = [
  rule('drain-out', 'at-once', is('position', 'out')),
  rule('drain-moved', 'within-1h', is('position', 'moved')),
  either(
    'emergency-symptoms',
    'at-once',
    [],
    ['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'].map((word) =>
      holds('general', word),
    ),
  ),
  either('unwell', 'within-24h', [], [holds('general', 'vomiting'), holds('general', 'dizzy')]),
  either('output-stopped', 'within-1h', steady, [is('draining', false), atMost('chainMlPer8h', 10)]),
  either(
    'output-stopped',
    'at-once',
    [...steady, is('onlyKidney', true)],
    [is('draining', false), atMost('chainMlPer8h', 10)],
  ),
  rule('output-stopped', 'within-24h', ...resolving, atMost('last24Ml', 10), atLeast('dayBeforeShare', 0.5)),
  rule(
    'output-decline',
    'within-1h',
    ...steady,
    is('inward', false),
    below('shareOfUsual', 0.5),
    atLeast('belowUsualMl', 50),
  ),
  rule('output-decline', 'within-24h', ...steady, is('slowShift', true)),
  either('output-surge', 'within-1h', [urinary], [atLeast('surgeHours', 2), atLeast('last24Ml', 3000)]),
  rule('output-surge', 'within-24h', biliary, above('last24Ml', 1000)),
  either(
    'output-surge',
    'within-1h',
    [biliary, above('last24Ml', 1000)],
    [above('last24Ml', 1500), holds('general', 'dizzy')],
  ),
  rule('output-surge', 'within-24h', ...resolving, above('shareOfUsual', 2), atLeast('aboveUsualMl', 50)),
  rule('output-surge', 'within-24h', is('kind', 'pleural'), above('newestReadingMl', 1000)),
  rule('output-surge', 'within-1h', is('kind', 'pleural'), above('newestReadingMl', 1500)),
  rule('bleeding', 'within-1h', among('appearance', ['red', 'clots'])),
  either(
    'bleeding',
    'at-once',
    [among('appearance', ['red', 'clots'])],
    [holds('general', 'fainted'), holds('general', 'dizzy')],
  ),
  rule('bleeding', 'within-24h', is('appearance', 'pink'), atLeast('hoursSinceTube', 48)),
  either('infection-signs', 'within-1h', [], [atLeast('temperature', 38), is('chills', true)]),
  either(
    'infection-signs',
    'within-24h',
    [],
    [among('appearance', ['cloudy', 'pus']), among('skin', ['red', 'pus'])],
  ),
  either(
    'blocked-and-infected',
    'at-once',
    [is('tubeTrouble', true)],
    [atLeast('temperature', 38), is('chills', true)],
  ),
  rule('leak', 'within-1h', is('leak', true)),
  rule('severe-pain', 'within-1h', atLeast('pain', 7)),
  rule('severe-pain', 'within-24h', atLeast('pain', 4), atLeast('painStep', 3)),
  either(
    'cap-failing',
    'within-1h',
    [is('capped', true)],
    [atLeast('temperature', 38), is('chills', true), is('leak', true), atLeast('pain', 4)],
  ),
  rule('flush-blocked', 'within-24h', is('ease', 'blocked')),
  rule('flush-retained', 'within-24h', atMost('netDayMl', -10), atMost('netDayBeforeMl', -10)),
  rule('flush-missed', 'within-3d', atLeast('flushIntervals', 2)),
  rule(
    'dressing-overdue',
    'within-24h',
    is('dressingChanged', false),
    among('dressingFound', ['damp', 'soiled', 'loosened', 'off']),
  ),
  rule('dressing-overdue', 'within-3d', atLeast('dressingHoursOver', 12)),
  rule('dressing-overdue', 'within-24h', atLeast('dressingHoursOver', 48)),
  rule('skin-broken', 'within-24h', is('skin', 'broken')),
  rule('log-missed', 'within-3d', atLeast('logHoursOver', 12)),
  rule('log-missed', 'within-24h', atLeast('logHoursOver', 36)),
  rule('log-missed', 'within-1h', is('onlyKidney', true), atLeast('logHoursOver', 12)),
  rule('exchange-due', 'within-3d', atMost('daysToExchange', 14), is('exchangeBooked', false)),
  rule('exchange-due', 'within-24h', atMost('daysToExchange', 0), is('exchangeBooked', false)),
  rule(
    'removal-check',
    'within-3d',
    ...resolving,
    below('netDayMl', 10),
    below('netDayBeforeMl', 10),
    is('feverWithin48h', false),
  ),
  rule('reading-suspect', 'within-3d', above('bagShare', 2)),
  rule('reading-suspect', 'within-3d', atLeast('ounceRatio', 24), atMost('ounceRatio', 36)),
  rule('reading-suspect', 'within-3d', above('readingAheadMinutes', 15)),
]

export const ruleCount = rules.length

/** Builds the engine once; the returned function decides on facts: for each finding that holds its most urgent form. */
export function generalEngine(): (facts: Record<string, unknown>) => Promise<Map<string, Urgency>> {
  const engine = new Engine(rules)
  return async (facts) => {
    const { events } = await engine.run(facts)
    const found = new Map<string, Urgency>()
    for (const { type, params } of events) {
      const urgency: Urgency = params?.urgency ?? 'none'
      if (urgencyRank[urgency] > urgencyRank[found.get(type) ?? 'none']) found.set(type, urgency)
    }
    return found
  }
}
