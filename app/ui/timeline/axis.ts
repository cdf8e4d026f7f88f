import type { Instant, LocalDate } from '@/lib/domain/instant.ts'
import { addDays, daysBetween, localDate, localParts } from '@/lib/domain/local-time.ts'

export const RANGES = [14, 30, 90, 'all'] as const
export type Range = (typeof RANGES)[number]

/** The one time axis of a chart: whole local days of the patient, from `first`, `count` of them. x 0 is the first midnight. */
export type Axis = { zone: string; first: LocalDate; count: number }

/** Fewer days are never shown: a bar would be as wide as a house. */
const LEAST_DAYS = 14
const MOST_DAYS = 730

/** The axis that ends with the day of `now` and reaches back over the range, but not further than what is known. */
export function axisOf(range: Range, firstKnown: LocalDate, now: number, zone: string): Axis {
  const today = localDate(now, zone)
  const known = Math.max(1, daysBetween(firstKnown, today) + 1)
  const count = Math.max(LEAST_DAYS, Math.min(known, range === 'all' ? MOST_DAYS : range))
  return { zone, first: addDays(today, 1 - count), count }
}

/** Where an instant falls, in days from the first midnight, by the patient's own clock. */
export function xOf({ zone, first }: Axis, instant: Instant | number): number {
  const { hour, minute } = localParts(instant, zone)
  return daysBetween(first, localDate(instant, zone)) + (hour * 60 + minute) / 1440
}

export const isShown = ({ count }: Axis, x: number): boolean => x >= 0 && x <= count

/** Days between two labels, so that at most about eight stand on the axis. */
export const labelEvery = ({ count }: Axis): number =>
  [1, 2, 4, 7, 14, 28, 56, 112].find((step) => count / step <= 8) ?? 112
