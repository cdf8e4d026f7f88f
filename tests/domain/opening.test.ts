import { describe, expect, it } from 'vitest'
import { ClinicHours, ClinicSettings } from '../../lib/domain/clinic-hours.ts'
import { isOpen, nextOpening } from '../../lib/domain/opening.ts'

const DENVER = 'America/Denver'
const office = [{ from: '08:00', until: '17:00' }]
const hours: ClinicHours = Object.freeze({
  week: {
    mon: office,
    tue: office,
    wed: [
      { from: '08:00', until: '12:00' },
      { from: '13:30', until: '17:00' },
    ],
    thu: office,
    fri: office,
  },
  holidays: [{ date: '2026-03-05', name: 'Founders’ day (invented)' }],
})
const open = (at: string, zone = DENVER) => isOpen(hours, zone, at)
const next = (at: string, zone = DENVER) => nextOpening(hours, zone, at)

describe('whether a clinic is open', () => {
  it.each([
    ['2026-03-02T07:59:59-07:00', false],
    ['2026-03-02T08:00:00-07:00', true],
    ['2026-03-02T16:59:59-07:00', true],
    ['2026-03-02T17:00:00-07:00', false],
    ['2026-03-04T12:30:00-07:00', false], // the break on Wednesday
    ['2026-03-04T13:30:00-07:00', true],
    ['2026-03-05T10:00:00-07:00', false], // a holiday
    ['2026-03-07T10:00:00-07:00', false], // a Saturday
  ])('at %s: %s', (at, expected) => {
    expect(open(at)).toBe(expected)
  })

  it('goes by the clock of the clinic, not of whoever asks', () => {
    const at = '2026-03-02T15:30:00Z' // 08:30 in Denver, 16:30 in Berlin
    expect(open(at)).toBe(true)
    expect(open(at, 'Europe/Berlin')).toBe(true)
    expect(open(at, 'Asia/Tokyo')).toBe(false) // Tuesday, 00:30
    expect(isOpen(hours, DENVER, Date.parse(at))).toBe(true)
  })

  it('takes 23:59 for the end of the day', () => {
    const always = { week: { mon: [{ from: '00:00', until: '23:59' }] }, holidays: [] }
    expect(isOpen(always, DENVER, '2026-03-02T23:59:30-07:00')).toBe(true)
    expect(isOpen(always, DENVER, '2026-03-03T00:00:00-07:00')).toBe(false)
  })

  it('is never open without hours', () => {
    const none = { week: {}, holidays: [] }
    expect(isOpen(none, DENVER, '2026-03-02T10:00:00-07:00')).toBe(false)
    expect(nextOpening(none, DENVER, '2026-03-02T10:00:00-07:00')).toBeNull()
  })
})

describe('the next opening', () => {
  it.each([
    ['2026-03-02T02:00:00-07:00', '2026-03-02T08:00:00-07:00'],
    ['2026-03-02T08:00:00-07:00', '2026-03-03T08:00:00-07:00'], // it is open: the one after
    ['2026-03-04T12:10:00-07:00', '2026-03-04T13:30:00-07:00'],
    ['2026-03-04T18:00:00-07:00', '2026-03-06T08:00:00-07:00'], // over the holiday
    ['2026-03-06T17:00:00-07:00', '2026-03-09T08:00:00-06:00'], // over the weekend and the clock change
  ])('after %s is %s', (at, expected) => {
    expect(next(at)).toBe(expected)
  })

  it('is null where holidays leave none within a year', () => {
    const once = { week: { mon: office }, holidays: [] as { date: string; name: string }[] }
    for (let day = 0; day < 380; day += 7)
      once.holidays.push({
        date: new Date(Date.UTC(2026, 2, 2 + day)).toISOString().slice(0, 10),
        name: 'closed',
      })
    expect(nextOpening(once, DENVER, '2026-03-02T00:00:00Z')).toBeNull()
  })
})

describe('on a day when the clocks change', () => {
  const night = { week: { sun: [{ from: '01:30', until: '02:30' }] }, holidays: [] }

  it('forwards: a span that begins in the gap begins after it', () => {
    const gap = { week: { sun: [{ from: '02:30', until: '04:00' }] }, holidays: [] }
    expect(nextOpening(gap, DENVER, '2026-03-08T00:00:00-07:00')).toBe('2026-03-08T03:30:00-06:00')
    expect(isOpen(gap, DENVER, '2026-03-08T03:29:00-06:00')).toBe(false)
    expect(isOpen(gap, DENVER, '2026-03-08T03:30:00-06:00')).toBe(true)
  })

  it('back: a span goes on through the hour that comes twice', () => {
    expect(nextOpening(night, DENVER, '2026-11-01T00:00:00-06:00')).toBe('2026-11-01T01:30:00-06:00')
    expect(isOpen(night, DENVER, '2026-11-01T01:10:00-07:00')).toBe(true)
    expect(isOpen(night, DENVER, '2026-11-01T02:30:00-07:00')).toBe(false)
  })

  it('the end of the day is the real one', () => {
    const always = { week: { sun: [{ from: '00:00', until: '23:59' }] }, holidays: [] }
    expect(isOpen(always, DENVER, '2026-11-01T23:59:59-07:00')).toBe(true)
    expect(isOpen(always, DENVER, '2026-11-02T00:00:00-07:00')).toBe(false)
  })
})

describe('settings of a clinic', () => {
  it('refuse a span that ends before it begins, and a phone that is none', () => {
    const bad = { week: { mon: [{ from: '17:00', until: '08:00' }] }, holidays: [] }
    expect(ClinicHours.safeParse(bad).error?.issues[0]?.message).toContain('ends later than it begins')
    const settings = { phone: '', afterHoursPhone: null, hours: null, quiet: null }
    expect(ClinicSettings.safeParse(settings).success).toBe(false)
    for (const phone of ['+1 555 0142', '(555) 010-0142', '555-0142 ext. 3', '112'])
      expect([phone, ClinicSettings.safeParse({ ...settings, phone }).success]).toEqual([phone, true])
    expect(ClinicSettings.safeParse({ ...settings, phone: 'ask at the desk' }).success).toBe(false)
  })
})
