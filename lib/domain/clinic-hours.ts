import { z } from 'zod'
import { ClockTime } from './clock-time.ts'
import { LocalDate } from './instant.ts'

export const Weekday = z.enum(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'])
export type Weekday = z.infer<typeof Weekday>

const Span = z
  .strictObject({ from: ClockTime, until: ClockTime })
  .refine(({ from, until }) => from < until, { error: 'accepted: an opening that ends later than it begins' })

/** When somebody at the clinic reads reports, in the clinic's zone; a day that is left out is closed. */
export const ClinicHours = z.strictObject({
  week: z.partialRecord(Weekday, z.array(Span).max(4)),
  holidays: z.array(z.strictObject({ date: LocalDate, name: z.string().trim().max(80) })).max(200),
})
export type ClinicHours = z.infer<typeof ClinicHours>
