import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { addDays, clockTime, instantOf } from './local-time.ts'
import { Urgency } from './words.ts'

const Standing = Urgency.exclude(['none'])

/** Rows of the clinical part that wait, as the worklist counts them. */
export const Waiting = z.strictObject({ urgency: Standing, rows: z.number(), overdue: z.number() })
export type Waiting = z.infer<typeof Waiting>

/** How long from a flag's opening today to the first attempt to call. */
export const FirstAttempt = z.strictObject({
  urgency: z.union([Standing, z.literal('all')]),
  opened: z.number(),
  tried: z.number(),
  /** Over those that were tried; null where none was. */
  medianMinutes: z.number().nullable(),
})
export type FirstAttempt = z.infer<typeof FirstAttempt>

/** One hour of the clinic's day; nulls lie ahead. */
export const HourNumbers = z.strictObject({
  from: Instant,
  label: z.string(),
  opened: z.number().nullable(),
  attempts: z.number().nullable(),
  reached: z.number().nullable(),
})
export type HourNumbers = z.infer<typeof HourNumbers>

/** A clinic's day in numbers, as of now. It names no patient. */
export const Numbers = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  date: LocalDate,
  waiting: z.array(Waiting),
  upkeep: z.strictObject({ rows: z.number(), overdue: z.number() }),
  first: z.array(FirstAttempt),
  hours: z.array(HourNumbers),
})
export type Numbers = z.infer<typeof Numbers>

/** The hour of a local day: 23, 24 or 25 of them. A label that comes twice, when the clocks go back, says so. */
export function hoursOf(date: LocalDate, zone: string): { from: string; until: string; label: string }[] {
  const begin = Date.parse(instantOf(`${date}T00:00`, zone) ?? '')
  const end = Date.parse(instantOf(`${addDays(date, 1)}T00:00`, zone) ?? '')
  const hours: { from: string; until: string; label: string }[] = []
  for (let ms = begin; ms < end; ms += 3_600_000) {
    const label = clockTime(ms, zone)
    const again = hours.some((hour) => hour.label === label)
    hours.push({
      from: new Date(ms).toISOString(),
      until: new Date(Math.min(ms + 3_600_000, end)).toISOString(),
      label: again ? `${label} again` : label,
    })
  }
  return hours
}
