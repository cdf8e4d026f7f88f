import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import { removalLimit, tooCoarseToTell } from '../../../lib/rules/findings/removal-check.ts'
import {
  at,
  closed,
  type DrainOverrides,
  days,
  drainView,
  dressing,
  event,
  finding,
  flush,
  judged,
  reading,
  record,
  rulesWith,
  state,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const collection = { kind: 'collection' } as const
const check = (told: Report[], hours: number, order: DrainOverrides = collection) =>
  urgency('removal-check', record(order, told), hours)

describe('little enough', () => {
  it.each([
    ['collection', [9.9, 9.9], 'within-3d'],
    ['collection', [10, 5], 'none'],
    ['collection', [5, 10], 'none'],
    ['collection', [9], 'none'],
    ['collection', [50, 9, 9], 'within-3d'],
    ['collection', [0, 0], 'within-3d'],
    ['bulb', [29.9, 29.9], 'within-3d'],
    ['bulb', [29, 30], 'none'],
    ['pleural', [49, 49, 49], 'within-3d'],
    ['pleural', [49, 50, 49], 'none'],
    ['pleural', [49, 49], 'none'],
    ['pleural', [900, 49, 49, 49], 'within-3d'],
    ['nephrostomy', [0, 0], 'none'],
  ] as const)('%s with days of %j: %s', (kind, volumes, expected) => {
    expect(check(days([...volumes]), 24 * volumes.length, { kind })).toBe(expected)
  })
  it('is asked of a drain that should dwindle', () => {
    expect(check(days([5, 5]), 48, { kind: 'collection', course: 'steady' })).toBe('none')
    expect(removalLimit(drainView(record({ course: 'resolving' }), 1))).toBeNull() // no limit is known for urine
  })
  it('wants complete days, on consecutive dates', () => {
    expect(check([...days([5]), reading(40, 3)], 40)).toBe('none') // 16 of 24 h
    expect(check(days([5, null, 5]), 72)).toBe('none')
    expect(check([...days([5]), reading(24 + 2.4, null), reading(48, 4)], 48)).toBe('within-3d') // 21.6 h of day 1
  })
  it('wants at least two readings', () => {
    expect(check([reading(48, 15)], 48)).toBe('none') // one sum over two days
    expect(check([reading(40, 12), reading(48, 3)], 48)).toBe('within-3d')
  })
  it('wants every one of three pleural readings measured, net of what was flushed in', () => {
    expect(check(days([40, null, 40, 40]), 96, { kind: 'pleural' })).toBe('none')
    expect(check([...days([40, 40]), flush(60, 20), reading(72, 69)], 72, { kind: 'pleural' })).toBe(
      'within-3d',
    )
    expect(
      check([reading(5, 40), reading(5, 30), reading(6, 40), reading(7, 40)], 7, { kind: 'pleural' }),
    ).toBe('none') // 70 at hour 5
  })
  it('takes what was recorded, not the flush that was ordered', () => {
    expect(
      check(days([12, 12]), 48, { ...collection, plan: { flush: { volumeMl: 5, everyHours: 24 } } }),
    ).toBe('none')
  })
  it('tells its numbers, since the second day was received', () => {
    const found = finding('removal-check', record(collection, days([50, 8, 6, 4])), 100)
    expect(times(found)).toEqual({ since: 72, actBy: 144 })
    expect(found?.says).toBe('Net output 6 mL on 2026-03-04 and 4 mL on 2026-03-05, under 10 mL/day.')
    expect(found?.nature).toBe('clinical')
    expect(found?.threshold).toMatchObject({
      name: 'removalCollectionMl',
      value: 10,
      confidence: 'published',
    })
  })
})

describe('a vessel that cannot tell', () => {
  it.each([
    [10, 'within-3d'],
    [10.5, 'none'],
    [50, 'none'],
  ])('marks of %d mL: %s', (markMl, expected) => {
    expect(check(days([5, 5]), 48, { ...collection, markMl })).toBe(expected)
    expect(tooCoarseToTell(drainView(record({ ...collection, markMl }), 1))).toBe(expected === 'none')
  })
  it('is fine for another limit', () => {
    expect(check(days([20, 20]), 48, { kind: 'bulb', markMl: 25 })).toBe('within-3d')
  })
})

describe('what speaks against it', () => {
  const low = days([5, 5])
  it('fever, chills or pain of 4 in the newest statement', () => {
    expect(check([...low, symptoms(49, { temperatureC: 38 })], 500)).toBe('none')
    expect(check([...low, symptoms(49, { chills: true })], 500)).toBe('none')
    expect(check([...low, symptoms(49, { pain: 4 })], 500)).toBe('none')
    expect(check([...low, symptoms(49, { pain: 3, temperatureC: 37.9, chills: false })], 49)).toBe(
      'within-3d',
    )
  })
  it('or within 48 h of its time or receipt', () => {
    const of = (part: Parameters<typeof symptoms>[1]) =>
      record(collection, [
        ...low,
        symptoms(49, part, { received: 50 }),
        symptoms(60, { temperatureC: 37, chills: false, pain: 0 }),
      ])
    for (const part of [{ temperatureC: 38.5 }, { chills: true }, { pain: 4 }])
      expect([urgency('removal-check', of(part), 97.9), urgency('removal-check', of(part), 98)]).toEqual([
        'none',
        'within-3d',
      ])
    expect(times(finding('removal-check', of({ pain: 9 }), 99))?.since).toBe(98)
    expect(judged(of({ pain: 9 }), 90).nextCheckAt).toBe('2026-03-06T02:00:00.000Z')
  })
  it('pain that is usual for the person holds it back all the same', () => {
    expect(
      urgency(
        'removal-check',
        record(collection, [...low, symptoms(49, { pain: 5 })], [], { usual: { pain: 6 } }),
        50,
      ),
    ).toBe('none')
  })
  it('fever by this drain’s own limit', () => {
    expect(
      check([...low, symptoms(49, { temperatureC: 37.8 })], 50, {
        ...collection,
        plan: { overrides: { feverC: 37.8 } },
      }),
    ).toBe('none')
  })
  it.each([
    ['a leak', state(49, { leak: true })],
    ['a drain that moved', state(49, { position: 'moved' })],
    ['a drain that is out', state(49, { position: 'out' })],
    ['a blocked flush', flush(49, 5, { ease: 'blocked' })],
    ['a bad dressing', dressing(49, { found: 'soiled' })],
    ['a wrongly dated reading', reading(80, 3, { received: 49 })],
  ] as const)('%s', (_, told) => {
    expect(check([...low, told], 50)).toBe('none')
    expect(check(low, 50)).toBe('within-3d')
  })
  it('a flush that stays inside', () => {
    expect(check([flush(1, 30), reading(24, 10), flush(25, 30), reading(48, 10)], 48)).toBe('none')
  })
  it('a stop that came at once', () => {
    expect(check(days([60, 60, 60, 5, 5]), 120)).toBe('none')
    expect(
      urgency(
        'removal-check',
        record(collection, days([60, 60, 60, 5, 5]), [closed(121, 'output-stopped')]),
        122,
      ),
    ).toBe('within-3d')
  })
  it('a surge: fluid that turned to bile', () => {
    expect(
      check([reading(24, 5, { appearance: 'serous' }), reading(48, 5, { appearance: 'bile-green' })], 48),
    ).toBe('none')
  })
  it('a capping, a new tube, a removal', () => {
    for (const type of ['capped', 'exchanged', 'uncapped', 'removed'] as const)
      expect(urgency('removal-check', record(collection, low, [event(49, type)]), 50), type).toBe('none')
  })
  it('not a late change of the dressing', () => {
    expect(check(low, 500, { ...collection, plan: { dressingEveryHours: 48 } })).toBe('within-3d')
  })
})

describe('a booked removal', () => {
  const low = days([5, 5, 5, 5])
  const booked = (hours: number) => record({ ...collection, removalBookedFor: at(hours) }, low)
  const asked = (of: ReturnType<typeof record>, hours: number) => urgency('removal-check', of, hours)
  it('is silent while it lies ahead, and asks again from its instant on', () => {
    expect([asked(booked(100), 99.99), asked(booked(100), 100)]).toEqual(['none', 'within-3d'])
    expect(times(finding('removal-check', booked(100), 101))).toEqual({ since: 100, actBy: 172 })
    expect(finding('removal-check', booked(100), 101)?.says).toContain('has passed and none is recorded')
  })
  it('is when to look again', () => {
    expect(judged(booked(100), 97).nextCheckAt).toBe(at(100))
  })
  it('that was called off counts from when little came', () => {
    expect(times(finding('removal-check', record(collection, low), 97))?.since).toBe(48)
  })
  it('of before the newest tube is not told of', () => {
    const of = record(
      { ...collection, removalBookedFor: at(10) },
      [...low, reading(120, 5), reading(144, 5), reading(168, 5)],
      [event(97, 'exchanged')],
    )
    expect(finding('removal-check', of, 169)?.says).not.toContain('booked')
  })
  it('silences no other finding', () => {
    const of = record({ ...collection, removalBookedFor: at(200) }, [...low, state(97, { leak: true })])
    expect(asked(of, 98)).toBe('none')
    expect(urgency('leak', of, 98)).toBe('within-1h')
  })
})

describe('another rule set', () => {
  it('moves limit and count', () => {
    const rules = rulesWith({ removalCollectionMl: 20, removalCollectionDays: 3 })
    expect(urgency('removal-check', record(collection, days([19, 19, 19])), 72)).toBe('none')
    expect(judged(record(collection, days([19, 19, 19])), 72, rules).findings.map((f) => f.code)).toContain(
      'removal-check',
    )
    expect(judged(record(collection, days([19, 19])), 48, rules).findings).toEqual([])
  })
})
