import { z } from 'zod'
import { NewDrain } from './enrolment.ts'
import { Instant } from './instant.ts'
import { DrainKind, Side } from './words.ts'

const why = z
  .string({ error: 'accepted: a reason' })
  .trim()
  .min(1, 'accepted: a reason')
  .max(500, 'accepted: at most 500 characters')

/**
 * How a correction of a drain begins what it leaves behind: its note, and the reason of orders that fit the new kind. Neither is
 * taken back by itself: the drain would stay corrected.
 */
const NOTE = 'Drain corrected: '
const ORDERS = 'the kind is corrected to '
export const correctionNote = (words: string) => `${NOTE}${words}`
export const correctionReason = (words: string) => `${ORDERS}${words}`
export const isCorrectionNote = (text: string): boolean => text.startsWith(NOTE)
export const isCorrectionReason = (why: string | null): boolean => why?.startsWith(ORDERS) ?? false
/** Why it cannot be taken back. */
export const OF_A_CORRECTION = 'This came with a correction of the drain: correct the drain again instead.'

/** Names of drains that a person would take for one. */
export const isAlike = (one: string, other: string): boolean =>
  one.trim().toLowerCase() === other.trim().toLowerCase()

/** Most drains of one person that are in place at a time. */
export const MOST_DRAINS = 12

/** A further drain of somebody who is in follow-up. */
export const AddedDrain = z.strictObject({ drain: NewDrain, why })
export type AddedDrain = z.infer<typeof AddedDrain>

/**
 * What a drain should have been enrolled as: its name, its side, its kind, when it was placed, and whether it drains the only
 * kidney. The last three stay where they are left out. The rules judge by them from then on; what was flagged before stays on
 * record.
 */
export const DrainCorrection = z.strictObject({
  label: NewDrain.shape.label,
  side: Side.nullable(),
  kind: DrainKind.optional(),
  /** Of its first tube. A later tube is a staff event. */
  placedAt: Instant.optional(),
  onlyKidney: z.boolean({ error: 'accepted: true, false' }).optional(),
  why,
})
export type DrainCorrection = z.infer<typeof DrainCorrection>
