import { z } from 'zod'
import { Instant } from './instant.ts'
import { StaffEventType } from './words.ts'

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
