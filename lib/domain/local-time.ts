import type { Instant, LocalDate } from './instant.ts'

/**
 * Instants as a screen prints them in a named zone. Names of days and months are our own, since two engines
 * need not agree on them ('Sep' and 'Sept'), and a page is drawn on the server and again in the browser.
 */
const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const
const DAY_MS = 86_400_000

export type LocalParts = {
  year: number
  month: number
  day: number
  hour: number
  minute: number
  second: number
}

const formats = new Map<string, Intl.DateTimeFormat>()
function formatFor(zone: string): Intl.DateTimeFormat {
  let format = formats.get(zone)
  if (!format) {
    const number = 'numeric' as const
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hourCycle: 'h23',
      year: number,
      month: number,
      day: number,
      hour: number,
      minute: number,
      second: number,
    })
    formats.set(zone, format)
  }
  return format
}

function askedParts(ms: number, zone: string): LocalParts {
  const parts: Record<string, number> = {}
  for (const { type, value } of formatFor(zone).formatToParts(ms)) parts[type] = Number(value)
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = parts
  return { year, month, day, hour, minute, second }
}

/** How far a zone's clock is ahead at the beginning of a UTC day, in ms, by zone and number of the day. */
const offsets = new Map<string, Map<number, number>>()
function offsetOn(day: number, zone: string): number {
  let known = offsets.get(zone)
  if (!known) {
    known = new Map()
    offsets.set(zone, known)
  }
  let offset = known.get(day)
  if (offset === undefined) {
    const { year, month, day: date, hour, minute, second } = askedParts(day * DAY_MS, zone)
    offset = Date.UTC(year, month - 1, date, hour, minute, second) - day * DAY_MS
    known.set(day, offset)
  }
  return offset
}

/**
 * What clock and calendar show in a zone at an instant. To ask the calendar is slow, and a page asks for hundreds of
 * instants: it is asked once a day, and for each instant only of a day on which the clock is changed.
 */
export function localParts(instant: Instant | number, zone: string): LocalParts {
  const ms = typeof instant === 'number' ? instant : Date.parse(instant)
  const day = Math.floor(ms / DAY_MS)
  const offset = offsetOn(day, zone)
  if (offset !== offsetOn(day + 1, zone)) return askedParts(ms, zone)
  const local = new Date(ms + offset)
  return {
    year: local.getUTCFullYear(),
    month: local.getUTCMonth() + 1,
    day: local.getUTCDate(),
    hour: local.getUTCHours(),
    minute: local.getUTCMinutes(),
    second: local.getUTCSeconds(),
  }
}

const two = (n: number) => String(n).padStart(2, '0')
const dateOf = ({ year, month, day }: LocalParts): LocalDate =>
  `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`

/** @example localDate('2026-11-24T06:30:00Z', 'America/Denver') // '2026-11-23' */
export const localDate = (instant: Instant | number, zone: string): LocalDate =>
  dateOf(localParts(instant, zone))

/** @example clockTime('2026-11-24T14:34:00Z', 'America/Denver') // '07:34' */
export function clockTime(instant: Instant | number, zone: string): string {
  const { hour, minute } = localParts(instant, zone)
  return `${two(hour)}:${two(minute)}`
}

/** Whole days from one local date to another. @example daysBetween('2026-02-27', '2026-03-01') // 2 */
export const daysBetween = (from: LocalDate, to: LocalDate): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS)

/** @example addDays('2026-02-28', 1) // '2026-03-01' */
export const addDays = (date: LocalDate, days: number): LocalDate =>
  new Date(Date.parse(date) + days * DAY_MS).toISOString().slice(0, 10)

const split = (date: LocalDate) => date.split('-').map(Number) as [number, number, number]

/** @example dayMonth('2026-11-06') // '6 Nov' */
export function dayMonth(date: LocalDate): string {
  const [, month, day] = split(date)
  return `${day} ${MONTHS[month - 1] ?? ''}`
}

/** @example fullDate('1958-03-12') // '12 Mar 1958' */
export const fullDate = (date: LocalDate): string => `${dayMonth(date)} ${split(date)[0]}`

/** @example weekday('2026-11-24') // 'Tue' */
export const weekday = (date: LocalDate): string => DAYS[new Date(Date.parse(date)).getUTCDay()] ?? ''

/**
 * When something is or was, as short as it stays clear beside `now`: the time alone on the same day, the day's
 * name within six days, else the date.
 * @example when('2026-11-23T14:10:00Z', '2026-11-24T14:34:00Z', 'America/Denver') // 'Mon 07:10'
 */
export function when(instant: Instant, now: Instant | number, zone: string): string {
  const date = localDate(instant, zone)
  const away = Math.abs(daysBetween(localDate(now, zone), date))
  const time = clockTime(instant, zone)
  if (away === 0) return time
  if (away <= 6) return `${weekday(date)} ${time}`
  return `${dayMonth(date)} ${time}`
}

/** Day and time, always with the day. @example dayAndTime('2026-11-24T14:34:00Z', 'America/Denver') // 'Tue 24 Nov, 07:34' */
export function dayAndTime(instant: Instant | number, zone: string): string {
  const date = localDate(instant, zone)
  return `${weekday(date)} ${dayMonth(date)}, ${clockTime(instant, zone)}`
}

/** Day, year and time. @example dateAndTime('2026-11-24T14:34:00Z', 'America/Denver') // '24 Nov 2026, 07:34' */
export const dateAndTime = (instant: Instant | number, zone: string): string =>
  `${fullDate(localDate(instant, zone))}, ${clockTime(instant, zone)}`

/**
 * A sentence with its times shortened as `when` has them: no date for today, no month within six days. Dates
 * alone get their day's name. The sentence's times are those of the zone.
 * @example shortTimes('Pain 8 of 10 reported Tue 24 Nov, 17:39.', now, zone) // on that day: 'Pain 8 of 10 reported 17:39.'
 */
export function shortTimes(says: string, now: Instant | number, zone: string): string {
  const today = localDate(now, zone)
  const near = new Map(
    [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6].map((days) => {
      const date = addDays(today, days)
      return [`${weekday(date)} ${dayMonth(date)}, `, days === 0 ? '' : `${weekday(date)} `]
    }),
  )
  return says
    .replace(/[A-Z][a-z]{2} \d{1,2} [A-Z][a-z]{2}, (?=\d\d:\d\d)/g, (date) => near.get(date) ?? date)
    .replace(/\b\d{4}-\d{2}-\d{2}\b/g, (date) => `${weekday(date)} ${dayMonth(date)}`)
}

/** How long, in the largest unit that fits. @example duration(5_400_000) // '1 h 30 min' */
export function duration(ms: number): string {
  const minutes = Math.floor(Math.abs(ms) / 60_000)
  if (minutes < 1) return 'under 1 min'
  if (minutes < 60) return `${minutes} min`
  const hours = Math.floor(minutes / 60)
  if (hours < 6 && minutes % 60 > 0) return `${hours} h ${minutes % 60} min`
  return hours < 48 ? `${hours} h` : `${Math.floor(hours / 24)} days`
}

/** The offset of a zone at an instant, in ms east of UTC. */
function offsetMs(ms: number, zone: string): number {
  const { year, month, day, hour, minute, second } = localParts(ms, zone)
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(ms / 1000) * 1000
}

/**
 * The instant of what somebody typed as a local time (`2026-11-24T07:34`), with its offset. A time that comes
 * twice, when the clocks go back, means the first; one that a clock change leaves out is moved on by the gap.
 * Null for what is no time.
 * @example instantOf('2026-11-24T07:34', 'America/Denver') // '2026-11-24T07:34:00-07:00'
 */
export function instantOf(local: string, zone: string): Instant | null {
  const wall = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/.test(local) ? Date.parse(`${local}Z`) : Number.NaN
  if (Number.isNaN(wall)) return null
  const before = offsetMs(wall - DAY_MS, zone)
  const after = offsetMs(wall + DAY_MS, zone)
  const fits = [before, after].map((offset) => wall - offset).filter((ms) => ms + offsetMs(ms, zone) === wall)
  const ms = fits.length > 0 ? Math.min(...fits) : wall - before
  return withOffset(ms, zone)
}

/** An instant as RFC 3339 in a zone's own offset. */
export function withOffset(ms: number, zone: string): Instant {
  const offset = Math.round(offsetMs(ms, zone) / 60_000)
  const sign = offset < 0 ? '-' : '+'
  const size = Math.abs(offset)
  const local = new Date(ms + offset * 60_000).toISOString().slice(0, 19)
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`
}

/** A local time as `<input type="datetime-local">` takes it. @example inputTime(0, 'UTC') // '1970-01-01T00:00' */
export function inputTime(instant: Instant | number, zone: string): string {
  return `${localDate(instant, zone)}T${clockTime(instant, zone)}`
}
