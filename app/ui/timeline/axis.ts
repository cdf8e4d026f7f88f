import type { Instant, LocalDate } from '@/lib/domain/instant.ts'
import { addDays, daysBetween, localDate, localParts } from '@/lib/domain/local-time.ts'

export const RANGES = [14, 30, 90, 'placement'] as const
export type Range = (typeof RANGES)[number]

/**
 * The one time axis of a chart: whole local days of the patient. x 0 is the first midnight; `count` days end with
 * today's, and `ahead` more follow where something is expected.
 */
export type Axis = { zone: string; first: LocalDate; count: number; ahead: number }

/** The part of the axis that is looked at, in days from its beginning. */
export type Shown = { from: number; to: number }

/** Fewer days are never shown: a bar would be as wide as a house. */
const LEAST_DAYS = 14
const MOST_DAYS = 730
/** What is expected takes at most this share of what was. */
const MOST_AHEAD = 0.5

/** The axis that ends with the day of `now` and reaches back over the range, but not further than the first placement. */
export function axisOf(range: Range, placed: LocalDate, now: number, zone: string, ahead = 0): Axis {
  const today = localDate(now, zone)
  const known = Math.max(1, daysBetween(placed, today) + 1)
  const count = Math.max(LEAST_DAYS, Math.min(known, range === 'placement' ? MOST_DAYS : range))
  return {
    zone,
    first: addDays(today, 1 - count),
    count,
    ahead: Math.min(ahead, Math.ceil(count * MOST_AHEAD)),
  }
}

/**
 * The axis that is wished for, and the one of the days that are here: what is left out before `before` would look on it
 * as if nothing were known.
 */
export function axesOf(
  range: Range,
  placed: LocalDate,
  before: LocalDate | null,
  { now, zone, ahead }: { now: number; zone: string; ahead: number },
): { wanted: Axis; here: Axis } {
  const wanted = axisOf(range, placed, now, zone, ahead)
  const isHere = before === null || wanted.first >= before
  return { wanted, here: isHere ? wanted : axisOf(range, before, now, zone, ahead) }
}

export const wholeOf = ({ count, ahead }: Axis): Shown => ({ from: 0, to: count + ahead })
export const isWhole = (axis: Axis, { from, to }: Shown): boolean =>
  from <= 0.01 && to >= axis.count + axis.ahead - 0.01

/** What is looked at after a choice, held within the axis and never under a day. */
export function within(axis: Axis, { from, to }: Shown): Shown {
  const end = axis.count + axis.ahead
  const width = Math.min(end, Math.max(1, to - from))
  const start = Math.min(Math.max(0, from), end - width)
  return { from: start, to: start + width }
}

/** Where an instant falls, in days from the first midnight, by the patient's own clock. */
export function xOf({ zone, first }: Axis, instant: Instant | number): number {
  const { hour, minute } = localParts(instant, zone)
  return daysBetween(first, localDate(instant, zone)) + (hour * 60 + minute) / 1440
}

export const dateAt = ({ first }: Axis, x: number): LocalDate => addDays(first, Math.floor(x))
export const isShown = ({ count }: Axis, x: number): boolean => x >= 0 && x <= count

/** Days between two labels, so that at most about eight stand on the axis. */
export const labelEvery = (days: number): number =>
  [1, 2, 4, 7, 14, 28, 56, 112].find((step) => days / step <= 8) ?? 112

/** The days that are named below the axis, counted back from today. */
export function labelledDays({ count, ahead }: Axis, { from, to }: Shown): number[] {
  const every = labelEvery(to - from)
  return Array.from({ length: count + ahead }, (_, x) => x).filter(
    (x) => (count - 1 - x) % every === 0 && x >= from - 0.01 && x < to,
  )
}
