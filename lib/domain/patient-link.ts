import { z } from 'zod'
import { Instant } from './instant.ts'

/** Whose a link is: the patient's own, or that of somebody who helps, under their own name. */
export const LinkHolder = z.enum(['patient', 'helper'], { error: 'accepted: patient, helper' })
export type LinkHolder = z.infer<typeof LinkHolder>

/** What staff ask for: a further link of the patient, or one of a helper's own. */
export const NewLink = z.discriminatedUnion(
  'holder',
  [
    z.strictObject({ holder: z.literal('patient') }),
    z.strictObject({
      holder: z.literal('helper'),
      holderName: z
        .string({ error: 'accepted: the helper’s name' })
        .trim()
        .min(1, 'accepted: the helper’s name')
        .max(80, 'accepted: at most 80 characters'),
      /** Whether it shows what was sent before, or only takes new reports. */
      maySee: z.boolean({ error: 'accepted: true or false' }),
    }),
  ],
  { error: 'accepted: holder patient or helper' },
)
export type NewLink = z.infer<typeof NewLink>

/** A link as staff see it. The link itself was shown once and is kept nowhere. */
export const LinkInList = z.strictObject({
  id: z.string(),
  holder: LinkHolder,
  holderName: z.string().nullable(),
  maySee: z.boolean(),
  since: Instant,
  expiresAt: Instant,
  hasExpired: z.boolean(),
  /** To within the hour; null where it was never opened. */
  lastOpenedAt: Instant.nullable(),
})
export type LinkInList = z.infer<typeof LinkInList>

/** A new link, shown once: the path of the check-in page with the token in its fragment. */
export const IssuedLink = z.strictObject({ link: z.string(), expiresAt: Instant })
export type IssuedLink = z.infer<typeof IssuedLink>

/** A code that is read out on the phone to renew a link, shown once. */
export const IssuedCode = z.strictObject({ code: z.string(), expiresAt: Instant })
export type IssuedCode = z.infer<typeof IssuedCode>

/** How long a link lives, from its making or its last renewal. */
export const LINK_DAYS = 180
