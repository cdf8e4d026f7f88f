import { z } from 'zod'
import { NewDrain } from './enrolment.ts'
import { Side } from './words.ts'

const why = z
  .string({ error: 'accepted: a reason' })
  .trim()
  .min(1, 'accepted: a reason')
  .max(500, 'accepted: at most 500 characters')

/** Most drains of one person that are in place at a time. */
export const MOST_DRAINS = 12

/** A further drain of somebody who is in follow-up. */
export const AddedDrain = z.strictObject({ drain: NewDrain, why })
export type AddedDrain = z.infer<typeof AddedDrain>

/** What a drain should have been called. Its kind stays: the rules have judged by it. */
export const DrainCorrection = z.strictObject({
  label: NewDrain.shape.label,
  side: Side.nullable(),
  why,
})
export type DrainCorrection = z.infer<typeof DrainCorrection>
