import { z } from 'zod'
import { AdviceName } from './advice-text.ts'
import { Instant } from './instant.ts'
import { Language } from './languages.ts'

/** Longest text of advice: what is longer is not read by somebody who is afraid. */
export const ADVICE_MAX = 400

const person = z
  .string()
  .trim()
  .min(1, 'accepted: the name of the qualified person who read it')
  .max(120, 'accepted: at most 120 characters')

/** A further version of a text in one language. What was there before stays. */
export const NewText = z.strictObject({
  name: AdviceName,
  language: Language,
  text: z
    .string({ error: 'accepted: the words that a patient reads' })
    .trim()
    .min(1, 'accepted: the words that a patient reads')
    .max(ADVICE_MAX, `accepted: at most ${ADVICE_MAX} characters`),
})
export type NewText = z.infer<typeof NewText>

/** Makes a version the one that patients read. `readBy`: the qualified person who read a translation. */
export const TextApproval = z.strictObject({ id: z.string(), readBy: person.nullish() })
export type TextApproval = z.infer<typeof TextApproval>

/** One version of a text, as the screen of texts shows it. */
export const TextVersion = z.strictObject({
  id: z.string(),
  version: z.number(),
  text: z.string(),
  writtenAt: Instant,
  writtenBy: z.string(),
  approvedAt: Instant.nullable(),
  approvedBy: z.string().nullable(),
  readBy: z.string().nullable(),
})
export type TextVersion = z.infer<typeof TextVersion>

/** One text in one language: what patients read now, what ships, and the clinic's own versions, the newest first. */
export const TextInLanguage = z.strictObject({
  language: Language,
  inForce: z.strictObject({ text: z.string(), version: z.string(), read: z.boolean() }),
  standard: z.string(),
  versions: z.array(TextVersion),
})
export type TextInLanguage = z.infer<typeof TextInLanguage>

/** All texts of a clinic, by case in the order in which they are read. */
export const AdviceTextsPage = z.strictObject({
  cases: z.array(
    z.strictObject({
      name: AdviceName,
      urgency: z.enum(['emergency', 'call-now', 'call-today', 'information']),
      languages: z.array(TextInLanguage),
    }),
  ),
})
export type AdviceTextsPage = z.infer<typeof AdviceTextsPage>
