import { z } from 'zod'
import { Instant } from './instant.ts'

export const VisitKind = z.enum(['exchange', 'removal'], { error: 'accepted: exchange, removal' })
export type VisitKind = z.infer<typeof VisitKind>

export const VisitState = z.enum(['requested', 'booked', 'done', 'cancelled'], {
  error: 'accepted: requested, booked, done, cancelled',
})
export type VisitState = z.infer<typeof VisitState>

/** A visit at which a drain is exchanged or removed. Booked ahead, it silences the reminder of it. */
export const Visit = z.strictObject({
  id: z.string(),
  drain: z.string(),
  kind: VisitKind,
  state: VisitState,
  bookedFor: Instant.nullable(),
})
export type Visit = z.infer<typeof Visit>

/** A step of a visit: without an id a new one is requested, or booked at once. */
export const NewVisitStep = z.strictObject({
  visit: z.string().optional(),
  drain: z.string({ error: 'accepted: the id of a drain of this patient' }),
  kind: VisitKind,
  state: VisitState,
  /** Beside `booked`: when. Beside `done`: when it was done. */
  at: Instant.nullish(),
  why: z.string().trim().max(500, 'accepted: at most 500 characters').optional(),
})
export type NewVisitStep = z.infer<typeof NewVisitStep>
