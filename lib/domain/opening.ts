import type { ClinicHours, Weekday } from './clinic-hours.ts'
import type { Instant, LocalDate } from './instant.ts'
import { addDays, instantOf, localDate, weekday } from './local-time.ts'

/*
 * When somebody at a clinic reads reports. Apart from the schemas of clinic-hours.ts, so that the check-in page
 * can ask without a network and without loading them on an old phone.
 */

/** How far ahead an opening is looked for. */
const MOST_DAYS = 366

/**
 * Whether the clinic is open at an instant, by its own zone's clock: from the beginning of a span up to its end, where 23:59 is
 * the end of the day. On a day when the clocks change a span begins and ends at the first instant that the clock shows
 * its time; a time that is left out is moved on by the gap.
 * @example isOpen({ week: { mon: [{ from: '08:00', until: '17:00' }] }, holidays: [] }, 'America/Denver', '2026-03-02T15:00:00Z') // true
 */
export function isOpen(hours: ClinicHours, zone: string, at: Instant | number): boolean {
  const ms = msOf(at)
  return spansOn(hours, zone, localDate(ms, zone)).some(({ from, until }) => from <= ms && ms < until)
}

/**
 * The next instant after this one at which the clinic opens, in its zone's offset; null where it does not within a year.
 * @example nextOpening(hours, 'America/Denver', '2026-03-02T02:00:00Z') // '2026-03-02T08:00:00-07:00'
 */
export function nextOpening(hours: ClinicHours, zone: string, at: Instant | number): Instant | null {
  const ms = msOf(at)
  const today = localDate(ms, zone)
  for (let day = 0; day <= MOST_DAYS; day++) {
    const begins = spansOn(hours, zone, addDays(today, day))
      .filter(({ from }) => from > ms)
      .toSorted((a, b) => a.from - b.from)
    if (begins[0]) return begins[0].opens
  }
  return null
}

/** From an instant up to another, in ms. */
export type Stretch = { from: number; until: number }

/** The stretches between two instants in which the clinic is closed, in order. */
export function closedBetween(hours: ClinicHours, zone: string, from: number, until: number): Stretch[] {
  const closed: Stretch[] = []
  let at = from
  // A span of the day before may end on this one: at midnight.
  for (let date = addDays(localDate(from, zone), -1); at < until; date = addDays(date, 1)) {
    if (date > localDate(until, zone)) break
    for (const open of spansOn(hours, zone, date).toSorted((a, b) => a.from - b.from)) {
      if (open.until <= at) continue
      if (open.from > at) closed.push({ from: at, until: Math.min(open.from, until) })
      at = Math.max(at, open.until)
      if (at >= until) return closed
    }
  }
  if (at < until) closed.push({ from: at, until })
  return closed
}

const msOf = (at: Instant | number) => (typeof at === 'number' ? at : Date.parse(at))

/** The spans of one local day as real instants; none on a holiday. */
function spansOn({ week, holidays }: ClinicHours, zone: string, date: LocalDate) {
  if (holidays.some((holiday) => holiday.date === date)) return []
  const spans = week[weekday(date).toLowerCase() as Weekday] ?? []
  return spans.flatMap(({ from, until }) => {
    const opens = instantOf(`${date}T${from}`, zone)
    const closes = instantOf(until === '23:59' ? `${addDays(date, 1)}T00:00` : `${date}T${until}`, zone)
    return opens && closes ? [{ opens, from: Date.parse(opens), until: Date.parse(closes) }] : []
  })
}
