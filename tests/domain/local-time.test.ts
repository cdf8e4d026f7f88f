import fc from 'fast-check'
import { DateTime } from 'luxon'
import { describe, expect, it } from 'vitest'
import {
  clockTime,
  dayAndTime,
  daysBetween,
  duration,
  inputTime,
  instantOf,
  localDate,
  localParts,
  shortTimes,
  when,
  withOffset,
} from '@/lib/domain/local-time.ts'

const zones = [
  'America/Denver',
  'Europe/Berlin',
  'Asia/Kathmandu',
  'Pacific/Chatham',
  'America/St_Johns',
  'UTC',
  'Pacific/Apia',
]
const instants = fc.integer({ min: Date.UTC(2015, 0, 1), max: Date.UTC(2035, 0, 1) })

describe('local time', () => {
  it('is that of another implementation, in any zone', () => {
    fc.assert(
      fc.property(instants, fc.constantFrom(...zones), (ms, zone) => {
        const other = DateTime.fromMillis(ms, { zone })
        expect(localDate(ms, zone)).toBe(other.toISODate())
        expect(clockTime(ms, zone)).toBe(other.toFormat('HH:mm'))
        expect(Date.parse(withOffset(ms, zone))).toBe(Math.floor(ms / 1000) * 1000)
      }),
    )
  })
  it('is that of another implementation to the second of a change of the clock, and of a day that was left out', () => {
    for (const [zone, instant] of [
      ['America/Denver', '2026-03-08T09:00:00Z'],
      ['America/Denver', '2026-11-01T08:00:00Z'],
      ['Pacific/Chatham', '2026-04-04T14:00:00Z'],
      ['Pacific/Apia', '2011-12-30T10:00:00Z'],
    ] as const)
      for (const seconds of [-86_400, -3600, -1, 0, 1, 3600, 86_400]) {
        const ms = Date.parse(instant) + seconds * 1000
        const { year, month, day, hour, minute, second } = DateTime.fromMillis(ms, { zone })
        expect(localParts(ms, zone)).toEqual({ year, month, day, hour, minute, second })
      }
  })
  it('what is typed as a local time comes back as the same local time, wherever there is such a time', () => {
    fc.assert(
      fc.property(instants, fc.constantFrom(...zones), (ms, zone) => {
        const typed = inputTime(ms, zone)
        expect(inputTime(instantOf(typed, zone) ?? '', zone)).toBe(typed)
      }),
    )
  })
  it('of a time that comes twice the first is meant', () => {
    expect(instantOf('2026-11-01T01:30', 'America/Denver')).toBe('2026-11-01T01:30:00-06:00')
  })
  it('a time that a clock change leaves out is moved on by the gap', () => {
    expect(instantOf('2026-03-08T02:30', 'America/Denver')).toBe('2026-03-08T03:30:00-06:00')
  })
  it.each(['', '2026-11-24', 'soon', '2026-13-01T00:00', '2026-11-24T25:00'])('%j is no time', (text) => {
    expect(instantOf(text, 'America/Denver')).toBeNull()
  })
})

describe('what a screen prints', () => {
  const now = '2026-11-24T14:34:00Z'
  const zone = 'America/Denver'
  it('of today the time alone, within six days the day, else the date', () => {
    expect(when('2026-11-24T14:10:00Z', now, zone)).toBe('07:10')
    expect(when('2026-11-23T14:10:00Z', now, zone)).toBe('Mon 07:10')
    expect(when('2026-11-17T14:10:00Z', now, zone)).toBe('17 Nov 07:10')
  })
  it('midnight belongs to the day that begins', () => {
    expect(when('2026-11-25T07:00:00Z', now, zone)).toBe('Wed 00:00')
  })
  it('day and time always with the day', () => {
    expect(dayAndTime(now, zone)).toBe('Tue 24 Nov, 07:34')
  })
  it.each([
    [59_000, 'under 1 min'],
    [38 * 60_000, '38 min'],
    [90 * 60_000, '1 h 30 min'],
    [-2 * 3_600_000, '2 h'],
    [7.9 * 3_600_000, '7 h'],
    [47.9 * 3_600_000, '47 h'],
    [72 * 3_600_000, '3 days'],
  ])('%d ms is %s', (ms, text) => {
    expect(duration(ms)).toBe(text)
  })
  it('days are counted by the calendar, over a clock change too', () => {
    expect(daysBetween('2026-10-31', '2026-11-02')).toBe(2)
    expect(daysBetween('2026-11-02', '2026-10-31')).toBe(-2)
  })
  it('a sentence loses the dates that go without saying', () => {
    expect(shortTimes('Pain 8 of 10 reported Tue 24 Nov, 06:39 (limit 7).', now, zone)).toBe(
      'Pain 8 of 10 reported 06:39 (limit 7).',
    )
    expect(shortTimes('Last log Sun 22 Nov, 06:36.', now, zone)).toBe('Last log Sun 06:36.')
    expect(shortTimes('Last log Sun 8 Nov, 06:36.', now, zone)).toBe('Last log Sun 8 Nov, 06:36.')
    expect(shortTimes('12 mL on 2026-11-22.', now, zone)).toBe('12 mL on Sun 22 Nov.')
  })
})
