import { z } from 'zod'
import { Instant } from './instant.ts'

/** What moves a report that was filed under the wrong patient: to whom, which drain is which, and why. */
export const NewMove = z.strictObject({
  to: z.string({ error: 'accepted: the id of a patient of this clinic' }),
  /** Of each drain that the report names, the drain of the other patient that it is about. */
  drains: z.record(z.string(), z.string(), {
    error: 'accepted: for each drain of the report one of the other patient',
  }),
  why: z
    .string({ error: 'is missing; accepted: why it is moved' })
    .trim()
    .min(1, 'is missing; accepted: why it is moved')
    .max(500, 'accepted: at most 500 characters'),
})
export type NewMove = z.infer<typeof NewMove>

/** A report that was moved, as the histories of both patients show it. */
export const MovedReport = z.strictObject({
  report: z.string(),
  direction: z.enum(['to', 'from']),
  /** When it was received under the wrong patient. */
  receivedAt: Instant,
  at: Instant,
  by: z.string(),
  why: z.string(),
  other: z.strictObject({ patientId: z.string(), name: z.string(), recordNumber: z.string() }),
})
export type MovedReport = z.infer<typeof MovedReport>

/** The drains of the patient to whom a report is to be moved, with two identifiers. */
export const MoveTarget = z.strictObject({
  patientId: z.string(),
  name: z.string(),
  birthDate: z.string(),
  recordNumber: z.string(),
  drains: z.array(z.strictObject({ id: z.string(), label: z.string(), placedAt: Instant })),
})
export type MoveTarget = z.infer<typeof MoveTarget>
