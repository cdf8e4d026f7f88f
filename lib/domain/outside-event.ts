import { z } from 'zod'
import { Instant } from './instant.ts'

/** What became of a patient outside the clinic's own calls. */
export const OutsideEventKind = z.enum(
  [
    'emergency-visit',
    'admission',
    'exchange',
    'obstruction',
    'infection',
    'dislodgement',
    'bleeding',
    'leak',
    'death',
    'other',
  ],
  {
    error:
      'accepted: emergency-visit, admission, exchange, obstruction, infection, dislodgement, bleeding, leak, death, other',
  },
)
export type OutsideEventKind = z.infer<typeof OutsideEventKind>

export const OutsideEvent = z.strictObject({
  id: z.string(),
  patientId: z.string(),
  drain: z.string().nullable(),
  kind: OutsideEventKind,
  at: Instant,
  /** `staff` or the id of the file that it came with. */
  source: z.string(),
  note: z.string().nullable(),
  recordedAt: Instant,
  by: z.string(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
  withdrawnWhy: z.string().nullable(),
})
export type OutsideEvent = z.infer<typeof OutsideEvent>

export const NewOutsideEvent = z.strictObject({
  drain: z.string().nullish(),
  kind: OutsideEventKind,
  at: Instant,
  note: z.string().trim().max(2000, 'accepted: at most 2000 characters').nullish(),
})
export type NewOutsideEvent = z.infer<typeof NewOutsideEvent>

/** What became of a patient is asked 30 days after enrolment and at the end of follow-up. */
export const InquiryAbout = z.enum(['30-days', 'end'], { error: 'accepted: 30-days, end' })
export type InquiryAbout = z.infer<typeof InquiryAbout>
/** `unknown` is an answer: nobody could be asked, and no figure takes it for a no. */
export const InquiryAnswer = z.enum(['events', 'none', 'unknown'], {
  error: 'accepted: events, none, unknown',
})
export type InquiryAnswer = z.infer<typeof InquiryAnswer>

/**
 * How an event stands to the flags before it: found by a flag that answers it, by how many hours ahead; or missed
 * (`flagId` null). `hoursSinceHeard` says how long the patient had not been heard when it happened.
 */
export const EventMatch = z.strictObject({
  event: z.string(),
  flagId: z.string().nullable(),
  hoursAhead: z.number().nullable(),
  hoursSinceHeard: z.number().nullable(),
})
export type EventMatch = z.infer<typeof EventMatch>
