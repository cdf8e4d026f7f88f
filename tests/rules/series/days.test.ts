import { describe, expect, it } from 'vitest'
import { dayOf, dayStart, daysBetween } from '../../../lib/rules/series/days.ts'

const utc = (ms: number) => new Date(ms).toISOString()
const hours = ({ start, end }: { start: number; end: number }) => (end - start) / 3_600_000

describe('dayStart', () => {
  it('is local midnight: 07:00 UTC in Denver in winter', () => {
    expect(utc(dayStart('America/Denver', '2026-03-02'))).toBe('2026-03-02T07:00:00.000Z')
  })
  it('is the first instant that there is where the clock skips midnight', () => {
    // São Paulo, 4 November 2018: 00:00 −03:00 became 01:00 −02:00.
    expect(utc(dayStart('America/Sao_Paulo', '2018-11-04'))).toBe('2018-11-04T03:00:00.000Z')
  })
  it('is the first of two midnights where the clock shows it twice', () => {
    // Havana, 1 November 2026: 01:00 −04:00 becomes 00:00 −05:00 again.
    expect(utc(dayStart('America/Havana', '2026-11-01'))).toBe('2026-11-01T04:00:00.000Z')
  })
})

describe('dayOf', () => {
  it('holds its first instant and not the one before', () => {
    const midnight = Date.parse('2026-03-02T07:00:00Z')
    expect(dayOf('America/Denver', midnight).date).toBe('2026-03-02')
    expect(dayOf('America/Denver', midnight - 1).date).toBe('2026-03-01')
  })
  it.each([
    ['23 h when the clock goes forward', 'America/Denver', '2026-03-08T18:00:00Z', '2026-03-08', 23],
    ['25 h when it goes back', 'America/Denver', '2026-11-01T18:00:00Z', '2026-11-01', 25],
    [
      '24.5 h on Lord Howe Island in April',
      'Australia/Lord_Howe',
      '2026-04-05T00:00:00Z',
      '2026-04-05',
      24.5,
    ],
    ['23.5 h there in October', 'Australia/Lord_Howe', '2026-10-04T00:00:00Z', '2026-10-04', 23.5],
    ['23 h where midnight is skipped', 'America/Sao_Paulo', '2018-11-04T12:00:00Z', '2018-11-04', 23],
    [
      '25 h where the last hour of a day comes twice',
      'America/Sao_Paulo',
      '2018-02-18T02:30:00Z',
      '2018-02-17',
      25,
    ],
  ])('has %s', (_, zone, instant, date, length) => {
    const day = dayOf(zone, Date.parse(instant))
    expect(day.date).toBe(date)
    expect(hours(day)).toBe(length)
  })
  it('knows the last day of the calendar that instants can name', () => {
    const day = dayOf('Etc/UTC', Date.parse('9999-12-31T23:59:59Z'))
    expect(day.date).toBe('9999-12-31')
    expect(hours(day)).toBe(24)
  })
})

describe('daysBetween', () => {
  it('gives each date once, both ends among them', () => {
    const days = daysBetween(
      'America/Denver',
      Date.parse('2026-03-07T12:00:00Z'),
      Date.parse('2026-03-09T06:00:00Z'),
    )
    expect(days.map((day) => day.date)).toEqual(['2026-03-07', '2026-03-08', '2026-03-09'])
    expect(days.map(hours)).toEqual([24, 23, 24])
  })
  it('leaves out the date that Samoa left out, 30 December 2011, and no real time with it', () => {
    const days = daysBetween(
      'Pacific/Apia',
      Date.parse('2011-12-29T12:00:00Z'),
      Date.parse('2011-12-31T12:00:00Z'),
    )
    expect(days.map((day) => day.date)).toEqual(['2011-12-29', '2011-12-31', '2012-01-01'])
    expect(days[0]?.end).toBe(days[1]?.start)
    expect(days.map(hours)).toEqual([24, 24, 24])
  })
  it('is one day from an instant to itself', () => {
    const noon = Date.parse('2026-03-02T12:00:00Z')
    expect(daysBetween('Etc/UTC', noon, noon)).toHaveLength(1)
  })
})
