import { z } from 'zod'
import { Instant } from './instant.ts'
import { FindingCode, StaffEventType } from './words.ts'

/** What staff record of a drain: a new tube, a capping, a removal. A flag is closed by a callback, not here. */
export const NewStaffEvent = z.strictObject({
  at: Instant,
  drain: z.string({ error: 'accepted: the id of a drain of this patient' }),
  type: StaffEventType.exclude(['flag-closed'], {
    error: 'accepted: placed, exchanged, replaced, removed, capped, uncapped, position-checked',
  }),
  note: z.string().trim().max(2000, 'accepted: at most 2000 characters').optional(),
})
export type NewStaffEvent = z.infer<typeof NewStaffEvent>

/** Why an event is withdrawn after its minute: it was recorded by mistake. */
export const Withdrawal = z.strictObject({
  why: z
    .string({ error: 'accepted: why it is withdrawn' })
    .trim()
    .min(1, 'accepted: why it is withdrawn')
    .max(500, 'accepted: at most 500 characters'),
})
export type Withdrawal = z.infer<typeof Withdrawal>

/** What was done to a drain, with who recorded it when. Withdrawn it stays readable and counts no more. */
export const KeptStaffEvent = z.strictObject({
  id: z.string(),
  drain: z.string().nullable(),
  at: Instant,
  type: StaffEventType,
  code: FindingCode.nullable(),
  note: z.string().nullable(),
  recordedAt: Instant,
  by: z.string(),
  byId: z.string(),
  /** The call that it came with: it is taken back or corrected with that. */
  callback: z.string().nullable(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
  /** Null within its minute, where no reason is asked for. */
  withdrawnWhy: z.string().nullable(),
})
export type KeptStaffEvent = z.infer<typeof KeptStaffEvent>

export const StaffEventRecorded = z.strictObject({
  event: z.string(),
  recordedAt: Instant,
  /** Until when whoever recorded it may take it back. */
  undoUntil: Instant,
})
export type StaffEventRecorded = z.infer<typeof StaffEventRecorded>
