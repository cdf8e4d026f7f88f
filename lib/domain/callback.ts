import { z } from 'zod'
import { Instant } from './instant.ts'

/** How an attempt to call ended. Only `reached` is speaking to the patient or whoever looks after them. */
export const AttemptOutcome = z.enum(['reached', 'no-answer', 'left-message', 'wrong-number'], {
  error: 'accepted: reached, no-answer, left-message, wrong-number',
})
export type AttemptOutcome = z.infer<typeof AttemptOutcome>

export const SpokenTo = z.enum(['patient', 'helper', 'interpreter'], {
  error: 'accepted: patient, helper, interpreter',
})
export type SpokenTo = z.infer<typeof SpokenTo>

export const Agreed = z.enum(
  [
    'self-care',
    'watch-and-report',
    'clinic-visit',
    'imaging',
    'exchange-booked',
    'removal-booked',
    'emergency-department',
    'emergency-services',
    'nothing-needed',
  ],
  {
    error:
      'accepted: self-care, watch-and-report, clinic-visit, imaging, exchange-booked, removal-booked, emergency-department, emergency-services, nothing-needed',
  },
)
export type Agreed = z.infer<typeof Agreed>

/**
 * One attempt to call, as a nurse records it. It names the flags that it closes; only an attempt
 * that reached somebody closes any. A flag of within-1h or sooner that still holds needs `lookAgainAt`.
 */
export const NewCallback = z
  .strictObject({
    outcome: AttemptOutcome,
    spokenTo: SpokenTo.nullish(),
    agreed: z.array(Agreed).optional(),
    closes: z.array(z.string()).optional(),
    lookAgainAt: Instant.nullish(),
    note: z.string().trim().max(4000, 'accepted: at most 4000 characters').optional(),
  })
  .superRefine((call, context) => {
    if (call.outcome !== 'reached') {
      if (call.closes?.length)
        context.addIssue({
          code: 'custom',
          path: ['closes'],
          message: 'accepted only where somebody was reached: not reached never closes a flag',
        })
      return
    }
    if (!call.spokenTo)
      context.addIssue({
        code: 'custom',
        path: ['spokenTo'],
        message: 'accepted: patient, helper, interpreter',
      })
    if (!call.agreed?.length)
      context.addIssue({
        code: 'custom',
        path: ['agreed'],
        message: 'accepted: at least one thing that was agreed',
      })
  })
export type NewCallback = z.infer<typeof NewCallback>

export const Callback = z.strictObject({
  id: z.string(),
  at: Instant,
  by: z.string(),
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  agreed: z.array(Agreed),
  closes: z.array(z.string()),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
})
export type Callback = z.infer<typeof Callback>
