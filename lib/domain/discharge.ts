import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'
import { DrainKind } from './words.ts'

const words = (most: number) => z.string().trim().max(most, `accepted: at most ${most} characters`).nullish()

/** Somebody who went home with a drain, as typed or as a line of a file says it. */
export const NewDischarge = z.strictObject({
  recordNumber: z
    .string({ error: 'accepted: the record number of the chart' })
    .trim()
    .min(1, 'accepted: the record number of the chart')
    .max(40, 'accepted: at most 40 characters'),
  name: z
    .string({ error: 'accepted: the full name' })
    .trim()
    .min(1, 'accepted: the full name')
    .max(200, 'accepted: at most 200 characters'),
  birthDate: LocalDate,
  phone: words(40),
  /** The day, in the clinic's zone. */
  dischargedOn: LocalDate,
  drainKind: DrainKind.nullish(),
  note: words(300),
})
export type NewDischarge = z.infer<typeof NewDischarge>

/** One who waits to be enrolled. */
export const Discharge = z.strictObject({
  id: z.string(),
  recordNumber: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  phone: z.string().nullable(),
  dischargedOn: LocalDate,
  drainKind: DrainKind.nullable(),
  note: z.string().nullable(),
  /** Whole days from the discharge to today, by the clinic's calendar. */
  days: z.number(),
  /** The patient of this record number whose follow-up has ended, if there is one. */
  formerPatientId: z.string().nullable(),
})
export type Discharge = z.infer<typeof Discharge>

/** One who was set aside or enrolled. */
export const Settled = z.strictObject({
  ...Discharge.omit({ days: true, formerPatientId: true }).shape,
  settledAt: Instant,
  by: z.string().nullable(),
  /** Why it was set aside; null where the person is enrolled. */
  why: z.string().nullable(),
  patientId: z.string().nullable(),
})
export type Settled = z.infer<typeof Settled>

export const DischargeList = z.strictObject({
  asOf: Instant,
  waiting: z.array(Discharge),
  /** The latest of those that no longer wait. */
  settled: z.array(Settled),
})
export type DischargeList = z.infer<typeof DischargeList>

export const SetAside = z.strictObject({
  why: z
    .string({ error: 'accepted: a reason' })
    .trim()
    .min(1, 'accepted: a reason')
    .max(500, 'accepted: at most 500 characters'),
})

/** Most people of one file, and most bytes of it. */
export const FILE_MAX_LINES = 500
export const FILE_MAX_BYTES = 60_000

/** A file of discharges: with `dryRun` it is only looked at. */
export const DischargeFile = z.strictObject({
  csv: z
    .string({ error: 'accepted: the text of the file' })
    .min(1, 'accepted: a file with a header line')
    .max(FILE_MAX_BYTES, `accepted: at most ${FILE_MAX_BYTES / 1000} kB`),
  dryRun: z.boolean({ error: 'accepted: true or false' }),
})

/** What a file brings, or would bring. Nothing is added while a line is at fault. */
export const FileOutcome = z.strictObject({
  /** Lines that name a person. */
  lines: z.number(),
  faults: z.array(z.strictObject({ line: z.number(), column: z.string(), message: z.string() })),
  /** New on the list. */
  added: z.number(),
  /** On the list already, with the same day. */
  known: z.number(),
  /** In follow-up already: nothing waits for them. */
  enrolled: z.number(),
})
export type FileOutcome = z.infer<typeof FileOutcome>
