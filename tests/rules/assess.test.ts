import { describe, expect, it } from 'vitest'
import { Assessment } from '../../lib/domain/assessment.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import {
  at,
  days,
  drain,
  dressing,
  event,
  hoursOf,
  judged,
  reading,
  record,
  rulesWith,
  state,
  symptoms,
} from '../support/build.ts'

describe('assess', () => {
  it('has nothing to say of a record without anything in it', () => {
    expect(judged(record([]), 5)).toEqual({
      asOf: at(5),
      ruleSet: '2026.1',
      urgency: 'none',
      actBy: null,
      nextCheckAt: null,
      findings: [],
      drains: [],
    })
  })
  it('has nothing to say before enrolment and placement', () => {
    const early = judged(record({}), -100)
    expect([early.urgency, early.findings, early.drains[0]?.days]).toEqual(['none', [], []])
  })
  it('gives what the shape of an assessment says', () => {
    const told = [
      ...days([400, 400, 400, 100]),
      state(97, { leak: true }),
      dressing(98, { skin: 'red' }),
      symptoms(98, { chills: true }),
    ]
    expect(Assessment.safeParse(judged(record({}, told), 99)).error).toBeUndefined()
  })
  it('takes any offset for the instant that it names', () => {
    const of = record({}, [reading(8, 0)])
    expect(assess(of, standardRuleSet, '2026-03-02T14:00:00+05:30')).toEqual(judged(of, 8.5))
  })
  it('is as urgent as its most urgent finding, and due by the earliest', () => {
    // The leak is within the hour of hour 97; broken skin was due by hour 34.
    const found = judged(
      record({}, [reading(8, 300), dressing(10, { skin: 'broken' }), state(97, { leak: true })]),
      98,
    )
    expect([found.urgency, found.actBy && hoursOf(found.actBy)]).toEqual(['within-1h', 34])
  })
  it('puts the most urgent first, then the one that is due first', () => {
    const told = [
      reading(8, 300),
      dressing(9, { skin: 'broken' }),
      symptoms(5, { general: ['dizzy'] }),
      state(9, { leak: true, position: 'out' }),
    ]
    expect(judged(record({}, told), 10).findings.map((f) => f.code)).toEqual([
      'drain-out',
      'leak',
      'unwell',
      'skin-broken',
    ])
  })
  it('says each thing once of each drain', () => {
    const told = [state(5, { leak: true }), state(6, { leak: true }), state(5, { leak: true }, { of: 'd2' })]
    const found = judged(record([drain(), drain({ id: 'd2' })], told), 7).findings
    expect(found.map((f) => [f.code, f.drain])).toEqual([
      ['leak', 'd1'],
      ['leak', 'd2'],
    ])
  })
  it('looks at nothing that was received, done or planned later', () => {
    const told = [reading(8, 0)]
    const later = record(
      { removedAt: at(20), cappedAt: at(20) },
      [...told, reading(8, 400, { received: 11 }), state(9, { leak: true }, { received: 11 })],
      [event(11, 'exchanged')],
    )
    expect(judged(later, 10)).toEqual(judged(record({}, told), 10))
  })
  it('says nothing of a removed drain, and shows its days', () => {
    const of = record({ removedAt: at(9) }, [
      reading(8, 0),
      state(8, { leak: true, position: 'out', draining: false }),
      dressing(8, { skin: 'pus', found: 'off' }),
    ])
    expect(judged(of, 500).findings).toEqual([])
    expect(judged(of, 12).drains[0]?.days).toHaveLength(1)
  })
  it('names the rule set, and holds the record against it', () => {
    const rules = rulesWith({ feverC: 38.5 })
    const of = record({}, [symptoms(5, { temperatureC: 38.4 })])
    expect([judged(of, 6).urgency, judged(of, 6, rules).urgency, judged(of, 6, rules).ruleSet]).toEqual([
      'within-1h',
      'none',
      'test',
    ])
  })
  it('says of each finding what was reported, what would end it, and against which limit', () => {
    const told = [
      ...days([400, 400, 400, 3]),
      state(97, { leak: true, position: 'moved' }),
      dressing(98, { skin: 'red', found: 'damp' }),
      symptoms(98, { chills: true, pain: 8, general: ['dizzy', 'fainted'] }),
    ]
    for (const f of judged(record({}, told), 400).findings) {
      expect(f.says, f.code).toMatch(/^\S.*\.$/)
      expect(f.ends, f.code).toMatch(/^It ends .*\.$/)
      expect(f.evidence.length, f.code).toBeGreaterThan(0)
      expect(f.threshold.source.length, f.code).toBeGreaterThan(5)
    }
  })
})
