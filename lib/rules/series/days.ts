import { Temporal } from 'temporal-polyfill'
import type { LocalDate } from '../../domain/instant.ts'

/** A local day in real time: [start, end) in ms since the epoch. 23, 24 or 25 h long, or as the zone has it. */
export interface LocalDay {
  date: LocalDate
  start: number
  end: number
}

const DAY_MS = 86_400_000
/** Local days by zone and day number. They are the same for everybody, so each is worked out once. */
const known = new Map<string, Map<number, LocalDay>>()

/** The day after the last of the year 9999 has six digits in its year: nothing is cut off by position. */
const dateOf = (dayNumber: number): LocalDate => new Date(dayNumber * DAY_MS).toISOString().replace(/T.*/, '')

const firstInstant = (zone: string, date: LocalDate): number =>
  Temporal.PlainDate.from(date).toZonedDateTime(zone).epochMilliseconds

function calendarOf(zone: string): Map<number, LocalDay> {
  let calendar = known.get(zone)
  if (!calendar) {
    calendar = new Map()
    known.set(zone, calendar)
  }
  return calendar
}

function dayAt(calendar: Map<number, LocalDay>, zone: string, dayNumber: number): LocalDay {
  let day = calendar.get(dayNumber)
  if (!day) {
    const date = dateOf(dayNumber)
    day = Object.freeze({
      date,
      start: calendar.get(dayNumber - 1)?.end ?? firstInstant(zone, date),
      end: calendar.get(dayNumber + 1)?.start ?? firstInstant(zone, dateOf(dayNumber + 1)),
    })
    calendar.set(dayNumber, day)
  }
  return day
}

function dayNumberAt(calendar: Map<number, LocalDay>, zone: string, instant: number): number {
  let day = Math.floor(instant / DAY_MS)
  while (dayAt(calendar, zone, day).start > instant) day--
  while (dayAt(calendar, zone, day).end <= instant) day++
  return day
}

/**
 * First instant of a local date, in ms since the epoch; where the clock skips midnight, the first that there is.
 * @example dayStart('America/Denver', '2026-03-02') // 1772434800000, 07:00 UTC
 */
export const dayStart = (zone: string, date: LocalDate): number =>
  dayAt(calendarOf(zone), zone, Date.parse(date) / DAY_MS).start

/** The local day that an instant falls in. */
export function dayOf(zone: string, instant: number): LocalDay {
  const calendar = calendarOf(zone)
  return dayAt(calendar, zone, dayNumberAt(calendar, zone, instant))
}

/** All local days from the one that holds `from` to the one that holds `to`; a date that the zone left out is not among them. */
export function daysBetween(zone: string, from: number, to: number): LocalDay[] {
  const calendar = calendarOf(zone)
  const days: LocalDay[] = []
  const last = dayNumberAt(calendar, zone, to)
  for (let n = dayNumberAt(calendar, zone, from); n <= last; n++) {
    const day = dayAt(calendar, zone, n)
    if (day.end > day.start) days.push(day)
  }
  return days
}

/** The local date some days after the one that holds an instant. */
export function dateAt(zone: string, instant: number, daysLater: number): LocalDate {
  return dateOf(dayNumberAt(calendarOf(zone), zone, instant) + daysLater)
}
