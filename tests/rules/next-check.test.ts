import { describe, expect, it } from 'vitest'
import { at, drain, event, hoursOf, judged, reading, record, state, symptoms } from '../support/build.ts'

const next = (of: ReturnType<typeof record>, hours: number) => {
  const { nextCheckAt } = judged(of, hours)
  return nextCheckAt === null ? null : hoursOf(nextCheckAt)
}
const heard = reading(0, 1)

describe('when to look again', () => {
  it('is never where time changes nothing', () => {
    expect(next(record([]), 5)).toBeNull()
    expect(next(record({}, [], [event(1, 'removed')]), 5)).toBeNull()
  })
  it('is the next of all overdues', () => {
    const order = {
      plan: {
        logEveryHours: 48,
        dressingEveryHours: 24,
        flush: { volumeMl: 5, everyHours: 20 },
        exchangeEveryDays: 30,
      },
    }
    const of = record(order, [heard])
    // Dressing 24 + 12; flush 2 × 20; dressing 2 × 24; log 48 + 12 and 48 + 36; exchange 16 and 30 days.
    expect(next(of, 1)).toBe(36)
    expect(next(of, 36)).toBe(40)
    expect(next(of, 40)).toBe(48)
    expect(next(of, 48)).toBe(60) // in the first week: within a day at once
    expect(next(of, 60)).toBe(384) // 36 h late is within a day too: nothing changes at hour 84
    expect(next(of, 384)).toBe(720)
    expect(next(of, 720)).toBeNull()
  })
  it('is after the instant itself, also in the very instant of a change', () => {
    const of = record({ plan: { exchangeEveryDays: 30 } }, [heard])
    expect([next(of, 383.9), next(of, 384)]).toEqual([384, 720])
  })
  it('is the end of a window', () => {
    const of = record({}, [heard, symptoms(5, { general: ['vomiting'] }), symptoms(8, { general: [] })])
    expect([next(of, 9), next(of, 29)]).toEqual([29, 8796]) // then the log, ordered every 8784 h, 12 h late
  })
  it('is not an end at which another statement keeps the answer', () => {
    const told = [
      heard,
      symptoms(5, { chills: true }),
      symptoms(8, { chills: true }),
      symptoms(9, { chills: false }),
    ]
    expect(next(record({}, told), 10)).toBe(32)
  })
  it('is not one of a finding that another drain’s time cannot change', () => {
    const of = record(
      [drain(), drain({ id: 'd2', plan: { exchangeEveryDays: 30 } })],
      [heard, reading(0, 1, { of: 'd2' }), state(3, { leak: true })],
    )
    expect(next(of, 4)).toBe(384)
  })
  it('is when a drain of tomorrow is placed, and then when its first log is missed', () => {
    const of = record({ placedAt: at(24) })
    expect([next(of, 5), next(of, 24)]).toEqual([24, 48])
  })
})
