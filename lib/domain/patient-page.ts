import { z } from 'zod'
import { Assessment } from './assessment.ts'
import { Callback } from './callback.ts'
import { PageLimits } from './day-limit.ts'
import { Flag, FlagStep } from './flag.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { PatientRecord } from './record.ts'
import { Reporter } from './submission.ts'
import { Hold } from './worklist.ts'

/** All that the coordinator sees of one patient, in one answer. */
export const PatientPage = z.strictObject({
  asOf: Instant,
  patient: z.strictObject({
    id: z.string(),
    name: z.string(),
    birthDate: LocalDate,
    recordNumber: z.string(),
    phone: z.string().nullable(),
    language: z.string().nullable(),
    interpreter: z.boolean(),
    timeZone: TimeZone,
  }),
  clinic: z.strictObject({ id: z.string(), name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** Names of the drains as patient and team use them, and their sizes, by drain id. */
  labels: z.record(z.string(), z.strictObject({ label: z.string(), frenchSize: z.number().nullable() })),
  /** The record as the rules read it at this instant. */
  record: PatientRecord,
  assessment: Assessment,
  /** The levels that a chart draws beside the days. */
  limits: PageLimits,
  /** Who gave each report, and the reporter's own words, by report id. */
  reports: z.record(
    z.string(),
    z.strictObject({ reporter: Reporter, enteredBy: z.string().nullable(), note: z.string().nullable() }),
  ),
  flags: z.array(Flag),
  steps: z.array(FlagStep),
  callbacks: z.array(Callback),
  hold: Hold.nullable(),
})
export type PatientPage = z.infer<typeof PatientPage>
