import { DateTime } from 'luxon'
import { expect, it } from 'vitest'
import { dayOf, dayStart, daysBetween } from '../../lib/rules/series/days.ts'

/**
 * Every clock change of every IANA zone in ten years, against luxon, which the project itself does not use.
 * Source: the time zone database as this Node has it; both sides read it, each with its own arithmetic.
 */
const hour = 3_600_000
const from = Date.UTC(2018, 0, 1)
const to = Date.UTC(2028, 0, 1)

const offsetAt = (zone: string, instant: number) => DateTime.fromMillis(instant, { zone }).offset

/** Instants at which the zone's offset changes, to the minute: steps of 5 days, then halving. */
function changes(zone: string): number[] {
  const found: number[] = []
  const step = 120 * hour
  for (let at = from; at < to; at += step) {
    if (offsetAt(zone, at) === offsetAt(zone, at + step)) continue
    let low = at
    let high = at + step
    while (high - low > 60_000) {
      const middle = low + Math.floor((high - low) / 120_000) * 60_000
      if (offsetAt(zone, middle) === offsetAt(zone, low)) low = middle
      else high = middle
    }
    found.push(high)
  }
  return found
}

/**
 * First instant of a local date, by halving on the local date that luxon tells at an instant. (Its own startOf('day')
 * takes the second of two midnights, where a clock goes back over one: Havana, the Azores.)
 */
function firstInstant(zone: string, date: string): number {
  let low = Date.parse(date) - 15 * hour
  let high = Date.parse(date) + 15 * hour
  while (high - low > 60_000) {
    const middle = low + Math.floor((high - low) / 120_000) * 60_000
    if ((DateTime.fromMillis(middle, { zone }).toISODate() ?? '') >= date) high = middle
    else low = middle
  }
  return high
}

const dateAfter = (date: string, days: number) =>
  new Date(Date.parse(date) + days * 24 * hour).toISOString().slice(0, 10)
const zones = Intl.supportedValuesOf('timeZone')

it(`cuts the days around each clock change where luxon does, in ${zones.length} zones`, {
  timeout: 120_000,
}, () => {
  let checked = 0
  const wrong: string[] = []
  for (const zone of zones) {
    for (const change of [from, ...changes(zone)]) {
      const around = DateTime.fromMillis(change, { zone }).toISODate() ?? ''
      for (const shift of [-1, 0, 1]) {
        const date = dateAfter(around, shift)
        const start = firstInstant(zone, date)
        const end = firstInstant(zone, dateAfter(date, 1))
        const ours = dayOf(zone, start + (end - start) / 2)
        if (dayStart(zone, date) !== start || ours.start !== start || ours.end !== end || ours.date !== date)
          wrong.push(`${zone} ${date}: ours ${JSON.stringify(ours)}, luxon ${start} to ${end}`)
        checked++
      }
    }
  }
  expect(wrong).toEqual([])
  expect(checked).toBeGreaterThan(5000)
})

it('lays days end to end, with nothing between them and nothing twice, over ten years of a zone', () => {
  for (const zone of [
    'America/Denver',
    'Australia/Lord_Howe',
    'Africa/Casablanca',
    'America/Santiago',
    'Asia/Beirut',
  ]) {
    const days = daysBetween(zone, from, to)
    days.forEach((day, i) => {
      if (i > 0) expect(day.start).toBe(days[i - 1]?.end)
    })
    expect(days.length).toBe(
      Math.round(DateTime.fromMillis(to, { zone }).diff(DateTime.fromMillis(from, { zone }), 'days').days) +
        1,
    )
  }
})

it('knows days of 23, 24, 24.5 and 25 hours', () => {
  const hoursOf = (zone: string, instant: string) => {
    const day = dayOf(zone, Date.parse(instant))
    return (day.end - day.start) / hour
  }
  expect(hoursOf('America/Denver', '2026-03-08T18:00:00Z')).toBe(23)
  expect(hoursOf('America/Denver', '2026-11-01T18:00:00Z')).toBe(25)
  expect(hoursOf('Australia/Lord_Howe', '2026-04-05T06:00:00Z')).toBe(24.5)
  expect(hoursOf('Asia/Kathmandu', '2026-03-08T06:00:00Z')).toBe(24)
})

it('knows that Samoa had no 30 December 2011', () => {
  const days = daysBetween(
    'Pacific/Apia',
    Date.parse('2011-12-29T20:00:00Z'),
    Date.parse('2012-01-01T12:00:00Z'),
  )
  expect(days.map((day) => day.date)).not.toContain('2011-12-30')
})
