import { Temporal } from 'temporal-polyfill'
import type { LocalDate } from '../../domain/instant.ts'

/** A local day in real time: [start, end) in ms since the epoch. 23, 24 or 25 h long, or as the zone has it. */
export interface LocalDay {
  date: LocalDate
  start: number
  end: number
}

const DAY_MS = 86_400_000
/** First instants of local days, by zone and day number; the same for everybody, so they are worked out once. */
const starts = new Map<string, Map<number, number>>()

function startOf(zone: string, dayNumber: number): number {
  let ofZone = starts.get(zone)
  if (!ofZone) {
    ofZone = new Map()
    starts.set(zone, ofZone)
  }
  let start = ofZone.get(dayNumber)
  if (start === undefined) {
    start = Temporal.PlainDate.from(dateOf(dayNumber)).toZonedDateTime(zone).epochMilliseconds
    ofZone.set(dayNumber, start)
  }
  return start
}

const dateOf = (dayNumber: number): LocalDate => new Date(dayNumber * DAY_MS).toISOString().slice(0, 10)

function dayNumberAt(zone: string, instant: number): number {
  let day = Math.floor(instant / DAY_MS)
  while (startOf(zone, day) > instant) day--
  while (startOf(zone, day + 1) <= instant) day++
  return day
}

/**
 * First instant of a local date, in ms since the epoch; where the clock skips midnight, the first that there is.
 * @example dayStart('America/Denver', '2026-03-02') // 1772434800000, 07:00 UTC
 */
export const dayStart = (zone: string, date: LocalDate): number => startOf(zone, Date.parse(date) / DAY_MS)

/** The local day that an instant falls in. */
export function dayOf(zone: string, instant: number): LocalDay {
  const day = dayNumberAt(zone, instant)
  return { date: dateOf(day), start: startOf(zone, day), end: startOf(zone, day + 1) }
}

/** All local days from the one that holds `from` to the one that holds `to`; a date that the zone left out is not among them. */
export function daysBetween(zone: string, from: number, to: number): LocalDay[] {
  const days: LocalDay[] = []
  const last = dayNumberAt(zone, to)
  for (let day = dayNumberAt(zone, from); day <= last; day++) {
    const start = startOf(zone, day)
    const end = startOf(zone, day + 1)
    if (end > start) days.push({ date: dateOf(day), start, end })
  }
  return days
}
