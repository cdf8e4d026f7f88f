import { z } from 'zod'
import { Instant } from './instant.ts'

/** A stay in hospital that has not ended: since when, and where if that is known. */
export const StandingAdmission = z.strictObject({ since: Instant, place: z.string().nullable() })
export type StandingAdmission = z.infer<typeof StandingAdmission>

/** An admission as staff record it: deadlines rest from now on, flags stay as they are. */
export const NewAdmission = z.strictObject({
  at: Instant,
  place: z.string().trim().max(200, 'accepted: at most 200 characters').nullish(),
})
export type NewAdmission = z.infer<typeof NewAdmission>

/** How a drain was found when its patient came home. */
export const DrainFound = z.enum(['in-place', 'exchanged', 'removed', 'capped'], {
  error: 'accepted: in-place, exchanged, removed, capped',
})
export type DrainFound = z.infer<typeof DrainFound>

/** What each answer records of the drain: a tube that was found in place had its position checked. */
export const eventOfFound = {
  'in-place': 'position-checked',
  exchanged: 'exchanged',
  removed: 'removed',
  capped: 'capped',
} as const

export const foundDrainLabels: Readonly<Record<DrainFound, string>> = {
  'in-place': 'still in place',
  exchanged: 'exchanged',
  removed: 'removed',
  capped: 'capped',
}

/** The end of a stay: every drain that was in place is confirmed, each with when it was so. */
export const Discharged = z.strictObject({
  drains: z.array(
    z.strictObject({
      drain: z.string({ error: 'accepted: the id of a drain of this patient' }),
      found: DrainFound,
      at: Instant,
    }),
    { error: 'accepted: one entry for each drain' },
  ),
  note: z.string().trim().max(2000, 'accepted: at most 2000 characters').optional(),
})
export type Discharged = z.infer<typeof Discharged>
