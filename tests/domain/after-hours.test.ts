import { describe, expect, it } from 'vitest'
import { AfterHours, cellOf, standardAfterHours } from '../../lib/domain/after-hours.ts'
import { faultsOf } from '../../lib/domain/problem.ts'
import { NewShift, rotaGaps, type Shift } from '../../lib/domain/rota.ts'

const changed = (change: object, urgency = 'at-once', hours: 'open' | 'closed' = 'closed') => ({
  ...standardAfterHours,
  [hours]: {
    ...standardAfterHours[hours],
    [urgency]: { ...standardAfterHours.closed['at-once'], ...change },
  },
})
const faults = (table: unknown) => {
  const read = AfterHours.safeParse(table)
  return read.success ? [] : faultsOf(read.error, table).map(({ field, message }) => `${field}: ${message}`)
}

describe('the table', () => {
  it('has a standard that fits its own shape', () => {
    expect(AfterHours.parse(standardAfterHours)).toEqual(standardAfterHours)
    expect(cellOf(standardAfterHours, 'at-once', false)).toEqual({
      tell: 'on-call',
      channel: 'both',
      repeatMinutes: 5,
      passOnMinutes: 10,
    })
    expect(cellOf(standardAfterHours, 'within-1h', false)).toMatchObject({
      repeatMinutes: 10,
      passOnMinutes: 20,
    })
    for (const urgency of ['at-once', 'within-1h', 'within-24h', 'within-3d', 'none'] as const)
      expect(cellOf(standardAfterHours, urgency, true).tell).toBe('nobody')
  })
  it.each([
    [{ repeatMinutes: 1 }, 'whole minutes from 2 to 60'],
    [{ repeatMinutes: 61 }, 'whole minutes from 2 to 60'],
    [{ repeatMinutes: 2.5 }, 'whole minutes from 2 to 60'],
    [{ passOnMinutes: 241 }, 'whole minutes from 2 to 240'],
    [{ repeatMinutes: 11 }, 'no sooner than the first repeat'],
    [{ tell: 'everybody' }, 'accepted: nobody, on-call'],
    [{ channel: 'pigeon' }, 'accepted: email, gateway, both'],
  ])('refuses %j', (change, says) => {
    expect(faults(changed(change)).join()).toContain(says)
  })
  it.each(['within-24h', 'within-3d'])('never has anybody told at night of what is %s', (urgency) => {
    for (const hours of ['open', 'closed'] as const)
      expect(faults(changed({}, urgency, hours)).join()).toContain('not called about at night')
  })
})

describe('the rota', () => {
  const office = [{ from: '08:00', until: '17:00' }]
  const hours = { week: { mon: office, tue: office }, holidays: [{ date: '2026-03-03', name: 'invented' }] }
  const zone = 'America/Denver'
  const shift = (from: string, until: string): Shift => ({
    id: from,
    name: 'Ann (invented)',
    email: 'ann@larkfield.example',
    phone: null,
    rank: 1,
    from,
    until,
  })
  const gaps = (shifts: Shift[], from: string, until: string) =>
    rotaGaps(shifts, hours, zone, Date.parse(from), Date.parse(until)).map((gap) =>
      [gap.from, gap.until].map((ms) => new Date(ms).toISOString().slice(0, 16)),
    )

  it('has a hole in every closed hour that no shift covers, holidays among them', () => {
    // Monday 2 March from noon in Denver (19:00 UTC) for two days; Tuesday is a holiday.
    expect(gaps([], '2026-03-02T19:00:00Z', '2026-03-04T19:00:00Z')).toEqual([
      ['2026-03-03T00:00', '2026-03-04T19:00'],
    ])
    const night = shift('2026-03-02T23:00:00Z', '2026-03-03T15:00:00Z')
    expect(gaps([night], '2026-03-02T19:00:00Z', '2026-03-04T19:00:00Z')).toEqual([
      ['2026-03-03T15:00', '2026-03-04T19:00'],
    ])
    const late = shift('2026-03-03T02:00:00Z', '2026-03-03T15:00:00Z')
    expect(gaps([late], '2026-03-02T19:00:00Z', '2026-03-03T15:00:00Z')).toEqual([
      ['2026-03-03T00:00', '2026-03-03T02:00'],
    ])
  })
  it('has none in opening hours', () => {
    expect(gaps([], '2026-03-02T15:00:00Z', '2026-03-03T00:00:00Z')).toEqual([])
  })

  const whole = { name: 'Ann (invented)', email: 'ann@larkfield.example', phone: null, rank: 1 }
  const times = { from: '2026-03-02T17:00:00-07:00', until: '2026-03-03T08:00:00-07:00' }
  it.each([
    [{ until: times.from }, 'until', 'later than the beginning'],
    [{ until: '2026-05-03T08:00:00-07:00' }, 'until', 'within 31 days'],
    [{ email: null }, 'email', 'an e-mail address or a phone number'],
    [{ email: 'ann' }, 'email', 'an e-mail address'],
    [{ rank: 0 }, 'rank', '1 to 9'],
    [{ name: ' ' }, 'name', 'a name'],
    [{ from: 'tomorrow' }, 'from', 'an instant with offset'],
  ])('refuses a shift with %j', (change, field, says) => {
    const body = { ...whole, ...times, ...change }
    const read = NewShift.safeParse(body)
    const found = read.success ? [] : faultsOf(read.error, body)
    expect(found.find((fault) => fault.field === field)?.message).toContain(says)
  })
})
