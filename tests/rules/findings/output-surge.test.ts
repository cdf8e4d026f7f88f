import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import {
  type DrainOverrides,
  days,
  event,
  finding,
  flush,
  judged,
  reading,
  record,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const surge = (told: Report[], hours: number, order: DrainOverrides = {}) =>
  urgency('output-surge', record(order, told), hours)

describe('urine: hours at a high rate', () => {
  it.each([
    ['400 mL in 2 h', [reading(2, 400)], 'within-1h'],
    ['399 mL in 2 h', [reading(2, 399)], 'none'],
    ['500 mL in less than 2 h', [reading(1.9, 500)], 'none'],
    ['two hours of 200 mL', [reading(1, 200), reading(2, 200)], 'within-1h'],
    ['one of the two below', [reading(1, 400), reading(2, 199)], 'none'],
    ['with a slow hour between', [reading(1, 300), reading(2, 100), reading(3, 300)], 'none'],
    [
      'with an hour between that was not measured',
      [reading(1, 300), reading(2, null), reading(3, 300)],
      'none',
    ],
    ['followed by a slow hour', [reading(2, 400), reading(3, 10)], 'within-1h'],
    ['on the average of 60 h', [reading(60, 12_000)], 'within-1h'],
  ] as const)('%s', (_, told, expected) => {
    expect(surge([...told], told.at(-1)?.readings?.[0]?.at === '2026-03-04T12:00:00.000Z' ? 60 : 4)).toBe(
      expected,
    )
  })
  it('ends 24 h after the last such emptying, and that is when to look again', () => {
    const of = record({}, [reading(2, 400), reading(3, 10)])
    expect(urgency('output-surge', of, 25.9)).toBe('within-1h')
    expect(urgency('output-surge', of, 26)).toBe('none')
    expect(judged(of, 10).nextCheckAt).toBe('2026-03-03T02:00:00.000Z')
    expect(times(finding('output-surge', of, 10))).toEqual({ since: 2, actBy: 3 })
  })
  it('counts net of what was flushed in', () => {
    expect(surge([flush(0, 10), reading(2, 409)], 2)).toBe('none')
  })
  it('is not asked of bile', () => {
    expect(surge([reading(2, 400)], 2, { kind: 'biliary' })).toBe('none')
  })
})

describe('urine: litres in a day', () => {
  it.each([
    [3000, 'within-1h'],
    [2999, 'none'],
  ])('%i mL', (ml, expected) => {
    expect(surge(days([ml]), 24)).toBe(expected)
  })
  it('needs no whole day, and no baseline', () => {
    // 3000 mL in 20 h are 150 an hour: the rate alone says nothing.
    expect(surge([reading(20, 3000)], 20)).toBe('within-1h')
  })
  it('stands until the 24 h up to a reading hold less', () => {
    expect(surge(days([3000]), 200)).toBe('within-1h')
    expect(surge(days([3000, 1500]), 200)).toBe('none')
  })
  it('tells its numbers', () => {
    const found = finding('output-surge', record({}, days([3100])), 24)
    expect(found?.says).toContain('Net output 3100 mL in the 24 h to')
    expect(found?.says).toContain('limit 3000 mL')
    expect(found?.threshold).toMatchObject({ name: 'surgeMlPerDay', value: 3000, confidence: 'published' })
  })
})

describe('bile', () => {
  const bile = { kind: 'biliary' } as const
  it.each([
    [1000, 'none'],
    [1001, 'within-24h'],
    [1500, 'within-24h'],
    [1501, 'within-1h'],
  ])('%i mL in a day: %s', (ml, expected) => {
    expect(surge(days([ml]), 24, bile)).toBe(expected)
    expect(surge(days([ml]), 24, { kind: 'cholecystostomy' })).toBe(expected)
  })
  it('over a litre cannot wait while the person is dizzy, be it usual for them or not', () => {
    const told = [...days([1001]), symptoms(30, { general: ['dizzy'] }), symptoms(31, { general: [] })]
    const of = record(bile, told, [], { usual: { general: ['dizzy'] } })
    expect(urgency('output-surge', of, 29)).toBe('within-24h')
    expect(times(finding('output-surge', of, 40))).toEqual({ since: 30, actBy: 31 })
    expect(urgency('output-surge', of, 53.9)).toBe('within-1h')
    expect(urgency('output-surge', of, 54)).toBe('within-24h')
    expect(judged(of, 40).nextCheckAt).toBe('2026-03-04T06:00:00.000Z')
  })
  it('not over a litre is nothing, dizzy or not', () => {
    expect(surge([...days([1000]), symptoms(24, { general: ['dizzy'] })], 24, bile)).toBe('none')
  })
})

describe('a drain that should dwindle', () => {
  const bulb = { kind: 'bulb' } as const
  it.each([
    ['over twice a usual 60', 60, 121, 'within-24h'],
    ['twice', 60, 120, 'none'],
    ['50 mL above a usual 30', 30, 80, 'within-24h'],
    ['49 mL above it', 30, 79, 'none'],
  ])('%s', (_, usual, ml, expected) => {
    expect(surge(days([usual, usual, usual, ml]), 96, bulb)).toBe(expected)
  })
  it('over twice its usual on the average of a long stretch', () => {
    // 49 h at 130 mL a day.
    expect(surge([...days([60, 60, 60]), reading(121, (130 * 49) / 24)], 121, bulb)).toBe('within-24h')
  })
  it('without a baseline, or with too little of the 24 h known, is not told', () => {
    expect(surge(days([60, 60, 500]), 72, bulb)).toBe('none')
    expect(surge([...days([60, 60, 60]), reading(75, null), reading(96, 500)], 96, bulb)).toBe('none')
  })
  it('is told of a steady drain in no such way', () => {
    expect(surge(days([60, 60, 60, 500]), 96)).toBe('none')
  })
  it('may be a collection that turns to bowel fluid or bile after it looked otherwise', () => {
    const collection = { kind: 'collection' } as const
    const looks = (...list: ('serous' | 'enteric' | 'bile-green' | 'bile-dark')[]) =>
      list.map((appearance, i) => reading(6 * (i + 1), 20, { appearance }))
    expect(surge(looks('serous', 'enteric'), 12, collection)).toBe('within-24h')
    expect(surge(looks('serous', 'bile-dark'), 12, collection)).toBe('within-24h')
    expect(surge(looks('enteric', 'enteric'), 12, collection)).toBe('none')
    expect(surge(looks('enteric', 'serous'), 12, collection)).toBe('none')
    expect(surge(looks('serous', 'enteric'), 12, { kind: 'bulb' })).toBe('none')
    expect(surge(looks('serous', 'enteric'), 12, { kind: 'collection', usualAppearance: 'enteric' })).toBe(
      'none',
    )
    // Another look with the tube before is none with this one.
    expect(
      urgency(
        'output-surge',
        record(collection, looks('serous', 'enteric', 'enteric'), [event(8, 'exchanged')]),
        18,
      ),
    ).toBe('none')
    // It counts for 24 h once it looks otherwise again.
    const back = record(collection, looks('serous', 'enteric', 'serous'))
    expect([urgency('output-surge', back, 35.9), urgency('output-surge', back, 36)]).toEqual([
      'within-24h',
      'none',
    ])
  })
})

describe('pleural fluid at one sitting', () => {
  const pleural = { kind: 'pleural' } as const
  it.each([
    [1000, 'none'],
    [1001, 'within-24h'],
    [1500, 'within-24h'],
    [1501, 'within-1h'],
  ])('%i mL: %s', (ml, expected) => {
    expect(surge([reading(6, ml)], 6, pleural)).toBe(expected)
  })
  it('is asked of one reading, not of a sum, and for 24 h', () => {
    expect(surge([reading(6, 700), reading(8, 700)], 8, pleural)).toBe('none')
    expect(surge([reading(6, 1100), reading(8, 10)], 29.9, pleural)).toBe('within-24h')
    expect(surge([reading(6, 1100), reading(8, 10)], 30, pleural)).toBe('none')
  })
  it('takes the worst, each for its own time', () => {
    const of = record(pleural, [reading(6, 1600), reading(20, 1100)])
    expect(urgency('output-surge', of, 29.9)).toBe('within-1h')
    expect(urgency('output-surge', of, 30)).toBe('within-24h')
    expect(urgency('output-surge', of, 44)).toBe('none')
  })
})

describe('what raises none', () => {
  it('a capped drain; the tube before', () => {
    const told = days([4000])
    for (const type of ['capped', 'exchanged', 'replaced', 'uncapped', 'removed'] as const)
      expect(urgency('output-surge', record({}, told, [event(25, type)]), 26), type).toBe('none')
  })
})
