import { z } from 'zod'
import { Instant } from './instant.ts'

/** How it stands with the person on call, as a worklist row says it. */
export const OnCallState = z.strictObject({
  state: z.enum(['has-it', 'told', 'nobody', 'waiting']),
  /** Who has it, or who was told last. */
  name: z.string().nullable(),
  at: Instant,
  /** How often somebody was told; several ways at one time count once. */
  tries: z.number(),
})
export type OnCallState = z.infer<typeof OnCallState>
