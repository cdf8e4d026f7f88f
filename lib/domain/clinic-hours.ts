import { z } from 'zod'
import { ClockTime } from './clock-time.ts'
import { LocalDate } from './instant.ts'

export const Weekday = z.enum(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'])
export type Weekday = z.infer<typeof Weekday>

const Span = z
  .strictObject({ from: ClockTime, until: ClockTime })
  .refine(({ from, until }) => from < until, { error: 'accepted: an opening that ends later than it begins' })

/** When somebody at the clinic reads reports, in the clinic's zone; a day that is left out is closed. Asked by opening.ts. */
export const ClinicHours = z.strictObject({
  week: z.partialRecord(Weekday, z.array(Span).max(4)),
  holidays: z.array(z.strictObject({ date: LocalDate, name: z.string().trim().max(80) })).max(200),
})
export type ClinicHours = z.infer<typeof ClinicHours>

/** Between which local times no reminder is sent (quiet-hours.ts); over midnight where it begins later than it ends. */
export const QuietHours = z.strictObject({ from: ClockTime, until: ClockTime })
export type QuietHours = z.infer<typeof QuietHours>

const phone = z
  .string({ error: 'accepted: a phone number' })
  .trim()
  .max(40, 'accepted: at most 40 characters')
  .regex(/^(?=(?:\D*\d){3})[+\d\s().#*/ext-]+$/i, 'accepted: a phone number, such as +1 555 0142')

/** What a clinic's own staff set of it. */
export const ClinicSettings = z.strictObject({
  phone,
  afterHoursPhone: phone.nullable(),
  hours: ClinicHours.nullable(),
  quiet: QuietHours.nullable(),
})
export type ClinicSettings = z.infer<typeof ClinicSettings>

/** The same as the settings screen reads it, with who last changed it and when. */
export const ClinicSettingsPage = z.strictObject({
  settings: ClinicSettings,
  changedAt: z.string().nullable(),
  changedBy: z.string().nullable(),
})
export type ClinicSettingsPage = z.infer<typeof ClinicSettingsPage>
