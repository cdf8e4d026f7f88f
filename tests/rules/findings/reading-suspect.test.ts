import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import {
  at,
  closed,
  type DrainOverrides,
  days,
  event,
  finding,
  judged,
  reading,
  record,
  times,
  urgency,
} from '../../support/build.ts'

const suspect = (told: Report[], hours: number, order: DrainOverrides = {}) =>
  urgency('reading-suspect', record(order, told), hours)

describe('more than two bags', () => {
  const bag = { bagCapacityMl: 600 }
  it.each([
    ['over 2 × 600', reading(5, 1200.1), bag, 'within-3d'],
    ['2 × 600', reading(5, 1200), bag, 'none'],
    ['a total of several bags', reading(5, 5000, { total: true }), bag, 'none'],
    ['a bag of unknown size', reading(5, 5000), {}, 'none'],
    ['not measured', reading(5, null), bag, 'none'],
  ] as const)('%s', (_, told, order, expected) => {
    expect(suspect([told], 6, order)).toBe(expected)
  })
  it('tells both numbers', () => {
    expect(finding('reading-suspect', record(bag, [reading(5, 1300)]), 6)?.says).toContain(
      "1300 mL Mon 2 Mar, 05:00 is more than 2 × the bag's 600 mL",
    )
  })
})

describe('ounces for millilitres', () => {
  it.each([
    [100, 'within-3d'], // a 24th of 2400
    [101, 'none'],
    [67, 'within-3d'], // a 35.8th
    [66, 'none'], // a 36.4th
    [0, 'none'],
  ])('%i after a usual 2400: %s', (ml, expected) => {
    expect(suspect(days([2400, 2400, 2400, ml]), 96)).toBe(expected)
  })
  it('either way', () => {
    expect(suspect(days([100, 100, 100, 2400]), 96)).toBe('within-3d')
    expect(suspect(days([100, 100, 100, 2399]), 96)).toBe('none')
    expect(suspect(days([100, 100, 100, 3601]), 96)).toBe('none')
  })
  it('silences nothing: the fall and the stop are told beside it', () => {
    const codes = judged(record({}, days([600, 600, 600, 20])), 96).findings.map((f) => f.code)
    expect(codes).toEqual(['output-stopped', 'output-decline', 'reading-suspect'])
  })
  it('says which way it may be wrong', () => {
    expect(finding('reading-suspect', record({}, days([600, 600, 600, 20])), 96)?.says).toContain(
      'ounces written as mL is possible',
    )
  })
})

describe('a time that cannot be', () => {
  it('is over 15 minutes after receipt', () => {
    expect([
      suspect([reading(5.25, 10, { received: 5 })], 6),
      suspect([reading(5.26, 10, { received: 5 })], 6),
    ]).toEqual(['none', 'within-3d'])
  })
  it('is before placement', () => {
    expect([
      suspect([reading(-0.01, 10, { received: 5 })], 6),
      suspect([reading(0, 10, { received: 5 })], 6),
    ]).toEqual(['within-3d', 'none'])
  })
})

describe('how long it stands', () => {
  const of = (events: ReturnType<typeof event>[] = [], more: Report[] = []) =>
    record({ bagCapacityMl: 600 }, [reading(5, 1300, { id: 'x', received: 6 }), ...more], events)
  const standing = (record: ReturnType<typeof of>, hours: number) => urgency('reading-suspect', record, hours)

  it('7 days from its receipt', () => {
    expect(times(finding('reading-suspect', of(), 100))).toEqual({ since: 6, actBy: 78 })
    expect([standing(of(), 173.9), standing(of(), 174)]).toEqual(['within-3d', 'none'])
    expect(judged(of(), 100).nextCheckAt).toBe(at(174))
  })
  it('until it is corrected', () => {
    expect(standing(of([], [reading(5, 130, { supersedes: 'x', received: 8 })]), 8)).toBe('none')
    expect(standing(of([], [reading(5, 1400, { supersedes: 'x', received: 8 })]), 8)).toBe('within-3d')
  })
  it('until it is closed, for what had been received by then', () => {
    expect(standing(of([closed(9, 'reading-suspect')]), 10)).toBe('none')
    expect(standing(of([closed(5.9, 'reading-suspect')]), 10)).toBe('within-3d')
    expect(standing(of([closed(9, 'reading-suspect')], [reading(12, 1300)]), 12)).toBe('within-3d')
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped', 'removed'] as const)(
    'until the tube is %s',
    (type) => {
      expect(standing(of([event(9, type)]), 10)).toBe('none')
      const wrongTime = record({}, [reading(50, 10, { received: 5 })], [event(9, type)])
      expect(standing(wrongTime, 10)).toBe('none')
    },
  )
  it('as the newest of several, each for its own time', () => {
    const two = of([], [reading(20, 1250, { received: 30 })])
    expect(finding('reading-suspect', two, 31)?.says).toContain('1250 mL')
    expect([standing(two, 197.9), standing(two, 198)]).toEqual(['within-3d', 'none'])
    expect(times(finding('reading-suspect', two, 190))?.since).toBe(6)
  })
})
