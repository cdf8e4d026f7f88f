import { describe, expect, it } from 'vitest'
import { FindingCode } from '../../lib/domain/words.ts'
import { rules } from '../../lib/rules/findings/all.ts'
import { ask, History, questionsOf } from '../../lib/rules/moment.ts'
import { prepare } from '../../lib/rules/series/prepare.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { drain, event, reading, record, START, state } from '../support/build.ts'

const ms = (hours: number) => START + hours * 3_600_000
const history = (of: ReturnType<typeof record>, hours: number) =>
  new History(prepare(of, standardRuleSet, ms(hours)))
const leak = { rule: rules.find((rule) => rule.code === 'leak') as (typeof rules)[number], drain: 0 }

describe('questionsOf', () => {
  it('asks each rule once of the patient, or once of each drain', () => {
    const count = (drains: number) =>
      questionsOf(
        prepare(
          record(Array.from({ length: drains }, (_, i) => drain({ id: `d${i}` }))),
          standardRuleSet,
          ms(1),
        ),
      ).length
    // 22 codes, of which infection-signs is asked of the patient and of each drain: 4 of the patient, 19 of a drain.
    expect([count(0), count(1), count(3)]).toEqual([4, 23, 61])
    expect(FindingCode.options).toHaveLength(22)
  })
})

describe('ask', () => {
  const of = record({}, [state(10, { leak: true })], [event(20, 'removed')])
  it('answers by what a view knows, and of a drain that is in only', () => {
    const past = history(of, 30)
    expect(past.record.known.map((at) => (at - START) / 3_600_000)).toEqual([0, 10, 20])
    expect([0, 1, 2].map((k) => ask(leak, past.view(k), ms(15)).urgency)).toEqual([
      'none',
      'within-1h',
      'none',
    ])
  })
})

describe('History', () => {
  it('makes each view once, the latest without an elder', () => {
    const past = history(record({}, [reading(8, 10), reading(16, 10)]), 20)
    expect(past.view(1)).toBe(past.view(1))
    expect(past.view(2).latest).toBeNull()
    expect(past.view(0).latest).toBe(past.view(2))
  })
})
