import { describe, expect, it } from 'vitest'
import { at, event, finding, judged, reading, record, times, urgency } from '../../support/build.ts'

const day = (n: number) => n * 24
const due = (of: ReturnType<typeof record>, days: number) => urgency('exchange-due', of, day(days))
const order = { plan: { exchangeEveryDays: 90 } }

describe('exchange-due', () => {
  it('14 days ahead is a reminder within three days; past due within a day', () => {
    const of = record(order)
    expect([due(of, 75.99), due(of, 76), due(of, 89.99), due(of, 90)]).toEqual([
      'none',
      'within-3d',
      'within-3d',
      'within-24h',
    ])
    expect(times(finding('exchange-due', of, day(80)))).toEqual({ since: day(76), actBy: day(79) })
    expect(times(finding('exchange-due', of, day(95)))).toEqual({ since: day(90), actBy: day(91) })
    expect(finding('exchange-due', of, day(80))?.nature).toBe('upkeep')
  })
  it('counts days of 24 real hours, over a change of the clock', () => {
    // Denver has an hour less on 8 March: 90 days later the clock shows 01:00, not 00:00.
    const of = record({ ...order, placedAt: '2026-03-01T00:00:00-07:00' }, [], [], {
      timeZone: 'America/Denver',
      enrolledAt: '2026-03-01T00:00:00-07:00',
    })
    expect(finding('exchange-due', of, day(80))?.says).toContain('Sat 30 May, 01:00')
  })
  it('is silent while a booking lies ahead, also past due', () => {
    expect(due(record({ ...order, exchangeBookedFor: at(day(85)) }), 84)).toBe('none')
    expect(due(record({ ...order, exchangeBookedFor: at(day(100)) }), 99)).toBe('none')
  })
  it('is within a day once the booking has passed, also where no interval is ordered', () => {
    const of = record({ exchangeBookedFor: at(day(40)) })
    expect([due(of, 39.99), due(of, 40)]).toEqual(['none', 'within-24h'])
    expect(times(finding('exchange-due', of, day(41)))).toEqual({ since: day(40), actBy: day(41) })
  })
  it.each(['exchanged', 'replaced', 'placed'] as const)(
    'starts anew with the tube %s, and a booking of before counts no more',
    (type) => {
      const of = record({ ...order, exchangeBookedFor: at(day(40)) }, [], [event(day(40) + 2, type)])
      expect([due(of, 41), due(of, 116), due(of, 117)]).toEqual(['none', 'none', 'within-3d'])
    },
  )
  it('is not asked where nothing is ordered or booked, of an uncapping, or of a removed drain', () => {
    expect(due(record({}), 3000)).toBe('none')
    expect(due(record(order, [], [event(day(70), 'uncapped')]), 76)).toBe('within-3d')
    expect(due(record(order, [], [event(day(70), 'removed')]), 100)).toBe('none')
  })
  it('says when to look again', () => {
    const of = record(order, [reading(1, 50)])
    expect(judged(of, 2).nextCheckAt).toBe(at(day(76)))
    expect(judged(of, day(77)).nextCheckAt).toBe(at(day(90)))
  })
})
