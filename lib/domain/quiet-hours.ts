import type { QuietHours } from './clinic-hours.ts'
import type { ClockTime } from './clock-time.ts'
import { addDays, clockTime, instantOf, localDate } from './local-time.ts'

/** Where a clinic has set none. Local choice. */
export const usualQuietHours: QuietHours = { from: '21:00', until: '08:00' }

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS

/** By the clock on the patient's wall: `from` is quiet, `until` no longer. Two equal times mean never. */
export function isQuiet(ms: number, { from, until }: QuietHours, zone: string): boolean {
  const time = clockTime(ms, zone)
  return from <= until ? time >= from && time < until : time >= from || time < until
}

/** The instants at which the clock shows a time on the days around an instant; where it comes twice, both. */
function around(ms: number, time: ClockTime, zone: string): number[] {
  const today = localDate(ms, zone)
  return [-1, 0, 1, 2].flatMap((days) => {
    const instant = instantOf(`${addDays(today, days)}T${time}`, zone)
    return instant === null ? [] : [Date.parse(instant), Date.parse(instant) + HOUR_MS]
  })
}

/** The first instant from `ms` on that is not quiet. */
export function nextFree(ms: number, quiet: QuietHours, zone: string): number {
  if (!isQuiet(ms, quiet, zone)) return ms
  const ends = around(ms, quiet.until, zone).filter((end) => end >= ms && !isQuiet(end, quiet, zone))
  return Math.min(...ends)
}

/** The last whole minute up to `ms` that is not quiet. */
export function lastFree(ms: number, quiet: QuietHours, zone: string): number {
  if (!isQuiet(ms, quiet, zone)) return ms
  const ends = around(ms, quiet.from, zone).map((start) => start - MINUTE_MS)
  return Math.max(...ends.filter((end) => end <= ms && !isQuiet(end, quiet, zone)))
}

/**
 * An instant of a stretch that is not quiet: the preferred one, else the nearest to it, else the stretch's
 * beginning. Null where the stretch is quiet altogether.
 */
export function freeWithin(
  [from, until]: readonly [number, number],
  preferred: number,
  quiet: QuietHours,
  zone: string,
): number | null {
  const wanted = Math.min(Math.max(preferred, from), until)
  const [nearest] = [nextFree(wanted, quiet, zone), lastFree(wanted, quiet, zone)]
    .filter((ms) => ms >= from && ms <= until)
    .toSorted((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))
  if (nearest !== undefined) return nearest
  return isQuiet(from, quiet, zone) ? null : from
}
