import { describe, expect, it } from 'vitest'
import { lastEndedWeek, mondayOf, weekSpan } from '../../lib/domain/week-page.ts'

describe('a week', () => {
  it('begins on Monday', () => {
    expect(mondayOf('2026-03-02')).toBe('2026-03-02')
    expect(mondayOf('2026-03-08')).toBe('2026-03-02')
    expect(mondayOf('2026-03-01')).toBe('2026-02-23')
  })

  it('has as many hours as its zone makes of it', () => {
    const hours = (week: string, zone: string) => {
      const { fromMs, untilMs } = weekSpan(week, zone)
      return (untilMs - fromMs) / 3_600_000
    }
    expect(hours('2026-02-23', 'America/Denver')).toBe(168)
    // The clocks go on by an hour on Sunday 8 March 2026, and back on Sunday 1 November.
    expect(hours('2026-03-02', 'America/Denver')).toBe(167)
    expect(hours('2026-10-26', 'America/Denver')).toBe(169)
  })

  it('is over with its Sunday, where the clinic is', () => {
    // Monday 06:30 in London is still Sunday in Denver.
    expect(lastEndedWeek('2026-03-09T05:30:00Z', 'Europe/London')).toBe('2026-03-02')
    expect(lastEndedWeek('2026-03-09T05:30:00Z', 'America/Denver')).toBe('2026-02-23')
  })
})
