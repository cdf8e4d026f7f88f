import { instantOf } from '../domain/local-time.ts'

const OFFSET = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/
const LOCAL = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2})?$/
const ACCEPTED =
  'accepted: 2026-03-02 08:05 in the patient’s zone, or with an offset: 2026-03-02T08:05:00-07:00'

/** When a line says that it was, or why that cannot be told. A local time is one of the patient's zone. */
export function timeOf(given: string, zone: string): { ms: number } | { why: string } {
  if (OFFSET.test(given)) {
    const ms = Date.parse(given.replace(' ', 'T'))
    if (!Number.isNaN(ms) && isDate(given)) return { ms }
  } else if (LOCAL.test(given)) {
    const instant = instantOf(given.replace(' ', 'T'), zone)
    if (instant !== null && isDate(given)) return { ms: Date.parse(instant) }
  }
  if (/^\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}/.test(given))
    return {
      why: `is a date as spreadsheet programs show it, in which month and day can be confused; ${ACCEPTED}`,
    }
  if (/^\d{5}([.,]\d+)?$/.test(given))
    return { why: `is a spreadsheet program’s own number for a date; ${ACCEPTED}` }
  if (/^\d{4}-\d{2}-\d{2}$/.test(given)) return { why: `has no time of day; ${ACCEPTED}` }
  return { why: ACCEPTED }
}

/** Whether the calendar has the date: no 30 February that is silently taken for 2 March. */
const isDate = (given: string) => {
  const day = given.slice(0, 10)
  const ms = Date.parse(`${day}T00:00:00Z`)
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(day)
}
