import { describe, expect, it } from 'vitest'
import { days, event, finding, flush, reading, record, times, urgency } from '../../support/build.ts'

/** Days of a net so much: 30 mL flushed in at noon, the rest emptied at midnight. */
const net = (...nets: number[]) =>
  nets.flatMap((ml, i) => [flush(24 * i + 12, 30), reading(24 * (i + 1), 30 + ml)])
const retained = (of: ReturnType<typeof record>, hours = 200) => urgency('flush-retained', of, hours)

describe('flush-retained', () => {
  it.each([
    ['10 mL less than nothing on both days', [-10, -10], 'within-24h'],
    ['9 mL on one of them', [-10, -9], 'none'],
    ['9 mL on the other', [-9, -10], 'none'],
    ['on one day only', [-30], 'none'],
    ['on the two latest of three', [200, -10, -20], 'within-24h'],
    ['on two days, but not on the latest', [-30, -30, 0], 'none'],
  ] as const)('%s', (_, nets, expected) => {
    expect(retained(record({}, net(...nets)))).toBe(expected)
  })
  it('wants consecutive dates', () => {
    // Day 1 is unknown between two days of −30.
    const told = [flush(12, 30), reading(24, 0), reading(48, null), flush(60, 30), reading(72, 0)]
    expect(retained(record({}, told))).toBe('none')
  })
  it('wants complete days: an afternoon alone says nothing', () => {
    // Day 1 is covered from 04:00 on, 20 of its 24 h.
    const told = [flush(12, 30), reading(24, 0), reading(28, null), flush(36, 30), reading(48, 0)]
    expect(retained(record({}, told))).toBe('none')
  })
  it('stands since the second day was received', () => {
    const found = finding('flush-retained', record({}, net(-12, -15, -30)), 80)
    expect(times(found)).toEqual({ since: 48, actBy: 72 })
    expect(found?.says).toContain('-15 mL on 2026-03-03 and -30 mL on 2026-03-04')
    expect(found?.threshold).toMatchObject({ name: 'flushRetainedMl', value: 10 })
  })
  it.each(['capped', 'exchanged', 'replaced', 'placed', 'uncapped', 'removed'] as const)(
    'is over with the tube %s',
    (type) => {
      expect(retained(record({}, net(-20, -20), [event(50, type)]), 51)).toBe('none')
    },
  )
  it('is not told of what an order makes due and nobody recorded', () => {
    expect(retained(record({ plan: { flush: { volumeMl: 30, everyHours: 24 } } }, days([5, 5])))).toBe('none')
  })
})
