import type { PaperAnswers } from './paper-sheet.ts'

type Order = NonNullable<PaperAnswers['dateOrder']>
/** A day, or that the order of day and month must be asked, or why it is none. */
export type ReadDate = { date: string } | { ask: true } | { why: string }

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
export const DATE_ACCEPTED = 'accepted: 2026-03-02, or 2 Mar 2026'
const NUMBERS = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4}|\d{2})$/

/**
 * Which of day and month stands first in a column of dates such as 3/2/2026: as it was answered, or as a number over 12
 * tells; null where neither does, or where the dates contradict each other.
 */
export function orderOf(dates: readonly string[], answered: Order | null): Order | null {
  if (answered !== null) return answered
  const pairs = dates.flatMap((date) => {
    const [, first, second] = NUMBERS.exec(date) ?? []
    return first && second ? [[Number(first), Number(second)] as const] : []
  })
  const dayFirst = pairs.some(([first]) => first > 12)
  const monthFirst = pairs.some(([, second]) => second > 12)
  if (dayFirst === monthFirst) return null
  return dayFirst ? 'day-first' : 'month-first'
}

/** @example readDate('3/2/2026', 'month-first') // { date: '2026-03-02' } */
export function readDate(given: string, order: Order | null): ReadDate {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(given)
  if (iso) return dated(Number(iso[1]), Number(iso[2]), Number(iso[3]))
  const numbers = NUMBERS.exec(given)
  if (numbers) {
    if (order === null) return { ask: true }
    const [first, second] = [Number(numbers[1]), Number(numbers[2])]
    return order === 'day-first'
      ? dated(yearOf(numbers[3]), second, first)
      : dated(yearOf(numbers[3]), first, second)
  }
  const words =
    /^(\d{1,2})[ -]([a-z]{3,9})\.?,?[ -](\d{4}|\d{2})$/i.exec(given) ??
    /^([a-z]{3,9})\.?[ -](\d{1,2}),?[ -](\d{4}|\d{2})$/i.exec(given)
  if (words) {
    const [day, month] = /^\d/.test(words[1] ?? '') ? [words[1], words[2]] : [words[2], words[1]]
    const at = MONTHS.indexOf((month ?? '').slice(0, 3).toLowerCase())
    return at < 0 ? { why: DATE_ACCEPTED } : dated(yearOf(words[3]), at + 1, Number(day))
  }
  if (/^\d{5}([.,]\d+)?$/.test(given))
    return { why: `is a spreadsheet program’s own number for a date; ${DATE_ACCEPTED}` }
  if (/^\d{1,2}[/.-]\d{1,2}$/.test(given)) return { why: `has no year; ${DATE_ACCEPTED}` }
  return { why: DATE_ACCEPTED }
}

const yearOf = (text: string | undefined) => (text?.length === 2 ? 2000 + Number(text) : Number(text))

function dated(year: number, month: number, day: number): ReadDate {
  const ms = Date.UTC(year, month - 1, day)
  const is = new Date(ms)
  if (is.getUTCMonth() !== month - 1 || is.getUTCDate() !== day)
    return { why: `is no day of the calendar; ${DATE_ACCEPTED}` }
  return { date: is.toISOString().slice(0, 10) }
}

/** A time of day as `HH:MM`, or null. @example readTime('8:05 pm') // '20:05' */
export function readTime(given: string): string | null {
  const parts =
    /^(\d{1,2})[:.h](\d{2})(?::\d{2})?\s*([ap])?\.?m?\.?$/i.exec(given) ??
    /^(\d{1,2})()\s*([ap])\.?m\.?$/i.exec(given) ??
    /^(\d{2})(\d{2})$/.exec(given)
  if (!parts) return null
  const half = parts[3]?.toLowerCase()
  const said = Number(parts[1])
  const minute = Number(parts[2] || 0)
  if (minute > 59 || said > 23 || (half && (said < 1 || said > 12))) return null
  const hour = half ? (said % 12) + (half === 'p' ? 12 : 0) : said
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`
}
