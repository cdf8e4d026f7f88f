import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import {
  closed,
  type DrainOverrides,
  days,
  drain,
  event,
  finding,
  flush,
  judged,
  reading,
  record,
  state,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const hot = (hours: number) => symptoms(hours, { temperatureC: 38 })
const cool = (hours: number) => symptoms(hours, { temperatureC: 36.8, chills: false })
const both = (
  told: Report[],
  hours: number,
  order: DrainOverrides = {},
  events: ReturnType<typeof event>[] = [],
) => urgency('blocked-and-infected', record(order, told, events), hours)

describe('fever or chills while a drain does not do its work', () => {
  it.each([
    ['output has stopped', [reading(96, 400), reading(104, 0)]],
    ['it is said not to drain', [state(104, { draining: false })]],
    ['output has fallen', days([400, 400, 400, 100])],
    ['the site leaks', [state(104, { leak: true })]],
    ['it has moved', [state(104, { position: 'moved' })]],
    ['it is out', [state(104, { position: 'out' })]],
    ['the flush is blocked', [flush(104, 10, { ease: 'blocked' })]],
  ] as const)('%s: at once', (_, told) => {
    const of = record({}, [...told, hot(105)])
    expect(urgency('blocked-and-infected', of, 106)).toBe('at-once')
    expect(times(finding('blocked-and-infected', of, 106))).toEqual({ since: 105, actBy: 105 })
    expect(both([...told], 106)).toBe('none') // without fever
  })
  it('with chills alone, and with a fever that came before', () => {
    expect(both([state(10, { leak: true }), symptoms(11, { chills: true })], 12)).toBe('at-once')
    const of = record({}, [hot(10), state(300, { leak: true })])
    expect(times(finding('blocked-and-infected', of, 301))?.since).toBe(300) // silence did not cure
  })
  it('not with fever alone, and not with a drain that drains', () => {
    expect(both([...days([400, 400, 400, 400]), hot(97)], 98)).toBe('none')
    expect(both([state(10, { leak: false, position: 'in-place', draining: true }), hot(11)], 12)).toBe('none')
  })
  it.each([
    ['nephrostomy', 'at-once'],
    ['nephroureteral', 'at-once'],
    ['biliary', 'at-once'],
    ['cholecystostomy', 'at-once'],
    ['collection', 'none'],
    ['pleural', 'none'],
    ['bulb', 'none'],
  ] as const)('of a %s: %s', (kind, expected) => {
    expect(both([state(10, { leak: true }), hot(11)], 12, { kind })).toBe(expected)
  })
  it('held to this drain’s own fever', () => {
    const told = [
      symptoms(11, { temperatureC: 37.8 }),
      state(10, { leak: true }),
      state(10, { leak: true }, { of: 'd2' }),
    ]
    const of = record([drain({ plan: { overrides: { feverC: 37.8 } } }), drain({ id: 'd2' })], told)
    expect([urgency('blocked-and-infected', of, 12), urgency('blocked-and-infected', of, 12, 'd2')]).toEqual([
      'at-once',
      'none',
    ])
  })
  it('of one drain says nothing of the other', () => {
    const of = record([drain(), drain({ id: 'd2' })], [state(10, { leak: true }), hot(11)])
    expect(urgency('blocked-and-infected', of, 12, 'd2')).toBe('none')
  })
})

describe('a capped drain', () => {
  it('counts as one that does not drain, since the capping', () => {
    const of = record({}, [hot(10)], [event(20, 'capped')])
    expect(times(finding('blocked-and-infected', of, 21))).toEqual({ since: 20, actBy: 20 })
    expect(finding('blocked-and-infected', of, 21)?.says).toContain('the drain is capped')
  })
  it('counts for 24 h after it was uncapped', () => {
    const events = [event(20, 'capped'), event(30, 'uncapped')]
    expect(both([hot(53.9)], 54, {}, events)).toBe('at-once')
    expect(both([hot(54)], 55, {}, events)).toBe('none')
  })
  it('not with a tube before', () => {
    expect(
      both([hot(35)], 36, {}, [event(20, 'capped'), event(30, 'uncapped'), event(31, 'exchanged')]),
    ).toBe('none')
  })
})

describe('what ended, but was evidenced within 24 h of the fever', () => {
  it.each([
    ['a leak', [state(10, { leak: true }), state(12, { leak: false })]],
    ['a blocked flush', [flush(10, 10, { ease: 'blocked' }), flush(12, 10, { ease: 'easy' })]],
    ['a stop', [reading(2, 300), reading(10, 0), reading(12, 300)]],
    ['not draining', [state(10, { draining: false }), reading(11, 90), reading(12, 90)]],
  ] as const)('%s', (_, told) => {
    expect(both([...told, hot(33.9)], 33.9)).toBe('at-once')
    expect(both([...told, hot(34)], 34)).toBe('none')
    expect(both([hot(1), cool(1.5), ...told], 13)).toBe('at-once') // the fever of before still counts
  })
  it('a drain that moved and was checked, or was out and the flag closed', () => {
    expect(both([state(10, { position: 'moved' }), hot(33.9)], 34, {}, [event(12, 'position-checked')])).toBe(
      'at-once',
    )
    expect(both([state(10, { position: 'moved' }), hot(34)], 34.1, {}, [event(12, 'position-checked')])).toBe(
      'none',
    )
    expect(both([state(10, { position: 'out' }), hot(33.9)], 34, {}, [closed(12, 'drain-out')])).toBe(
      'at-once',
    )
  })
  it('a fall that was made good', () => {
    const told = days([400, 400, 400, 100, 400])
    expect(both([...told, hot(119.9)], 121)).toBe('at-once') // the low day ended at hour 96
    expect(both([...told, hot(120)], 121)).toBe('none')
  })
  it('only with this tube', () => {
    expect(both([state(10, { leak: true }), hot(15)], 16, {}, [event(12, 'exchanged')])).toBe('none')
    expect(both([state(10, { position: 'out' }), hot(15)], 16, {}, [event(12, 'replaced')])).toBe('none')
    expect(both([reading(10, 0), hot(15)], 16, {}, [event(12, 'exchanged')])).toBe('none')
  })
})

describe('how it ends', () => {
  it('24 h after the last fever, once a newer statement is free of it', () => {
    const of = record({}, [state(10, { leak: true }), hot(11), cool(13)])
    expect([urgency('blocked-and-infected', of, 34.9), urgency('blocked-and-infected', of, 35)]).toEqual([
      'at-once',
      'none',
    ])
    expect(judged(of, 30).nextCheckAt).toBe('2026-03-03T11:00:00.000Z')
  })
  it('with the tube exchanged or removed', () => {
    for (const type of ['exchanged', 'replaced', 'placed', 'removed'] as const)
      expect(both([state(10, { leak: true }), hot(11)], 13, {}, [event(12, type)]), type).toBe('none')
  })
  it('tells both sides, and what they rest on', () => {
    const found = finding(
      'blocked-and-infected',
      record({}, [state(10, { leak: true }, { id: 'r1' }), symptoms(11, { temperatureC: 39 }, { id: 'r2' })]),
      12,
    )
    expect(found?.says).toContain('Temperature 39 °C')
    expect(found?.says).toContain('the site leaks')
    expect(found?.evidence.map((e) => [e.report, e.what])).toEqual([
      ['r2', 'temperature'],
      ['r1', 'leak'],
    ])
  })
})
