import { z } from 'zod'

export const EndReason = z.enum(['removed', 'transferred', 'died', 'declined', 'consent-withdrawn'], {
  error: 'accepted: removed, transferred, died, declined, consent-withdrawn',
})
export type EndReason = z.infer<typeof EndReason>

/** Ends follow-up. With a drain in place only a physician may, and says why; a death asks for nothing more. */
export const EndFollowUp = z.strictObject({
  reason: EndReason,
  why: z.string().trim().max(500, 'accepted: at most 500 characters').optional(),
})
export type EndFollowUp = z.infer<typeof EndFollowUp>

/** Takes a patient back into follow-up. After a death one person asks for it and another confirms. */
export const ResumeFollowUp = z.strictObject({
  why: z.string().trim().min(1, 'accepted: a reason').max(500, 'accepted: at most 500 characters'),
})
export type ResumeFollowUp = z.infer<typeof ResumeFollowUp>

/**
 * How a patient's follow-up stands. `undoAskedBy`: who asked to undo a death, and why, until another confirms;
 * the id tells whoever reads whether it was they themselves.
 */
export const FollowUp = z.strictObject({
  endedAt: z.string().nullable(),
  endedBy: z.string().nullable(),
  reason: EndReason.nullable(),
  why: z.string().nullable(),
  undoAskedBy: z.string().nullable(),
  undoAskedById: z.string().nullable(),
  undoWhy: z.string().nullable(),
})
export type FollowUp = z.infer<typeof FollowUp>
