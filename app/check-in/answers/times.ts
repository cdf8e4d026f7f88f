import type { Say } from '../words/catalogue.ts'
import { localeOf } from '../words/locale.ts'
import type { When } from './draft.ts'

const two = (n: number) => String(n).padStart(2, '0')

/** The phone's own calendar date of an instant, `2026-03-02`. */
export const localDay = (instant: Date): string =>
  `${instant.getFullYear()}-${two(instant.getMonth() + 1)}-${two(instant.getDate())}`

/** The phone's own clock time of an instant, `08:05`. */
export const localTime = (instant: Date): string => `${two(instant.getHours())}:${two(instant.getMinutes())}`

/** Today and the six days before it, by the phone's calendar, today first. */
export const pickableDays = (now: Date): string[] =>
  Array.from({ length: 7 }, (_, back) =>
    localDay(new Date(now.getFullYear(), now.getMonth(), now.getDate() - back, 12)),
  )

/**
 * The instant that an answer to 'when' names; null when the picked time is not whole. Picked times are the
 * phone's own: the person reads them off the clock beside it.
 */
export function instantOf(when: When | undefined, nowFixed: string | undefined): string | null {
  if (!when || when.kind === 'now') return nowFixed ?? null
  if (when.kind === 'at') return when.at
  const [year, month, day] = when.day.split('-').map(Number)
  const [hour, minute] = when.time.split(':').map(Number)
  if (!year || !month || !day || hour === undefined || minute === undefined) return null
  const instant = new Date(year, month - 1, day, hour, minute)
  return Number.isNaN(instant.getTime()) ? null : instant.toISOString()
}

/** 'today', 'yesterday', or the date in words: 'Sun, Nov 22'. */
export function sayDay(day: string, now: Date, say: Say): string {
  const back = pickableDays(now).indexOf(day)
  if (back === 0) return say('when.today')
  if (back === 1) return say('when.yesterday')
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number)
  return new Date(year, month - 1, date, 12).toLocaleDateString(localeOf(say.language), {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
  })
}

/** 'today at 8:05 AM'. */
export function sayWhen(instant: string, now: Date, say: Say): string {
  const date = new Date(instant)
  return say('when.dayAndTime', {
    day: sayDay(localDay(date), now, say),
    time: date.toLocaleTimeString(localeOf(say.language), { hour: 'numeric', minute: '2-digit' }),
  })
}
