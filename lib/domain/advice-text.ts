import { z } from 'zod'

/** The cases of advice, in the order in which they are to be read (advice-urgency.ts): the most urgent first. */
export const AdviceName = z.enum([
  'emergency-symptoms',
  'bleeding-and-faint',
  'drain-out',
  'blocked-and-infected',
  'bulb-out',
  'fever',
  'cap-failing',
  'not-draining',
  'drain-moved',
  'bleeding',
  'severe-pain',
  'leak',
  'large-volume-now',
  'high-output',
  'large-volume',
  'high-output-today',
  'flush-blocked',
  'pink-fluid',
  'cloudy-fluid',
  'skin',
  'unwell',
  'dressing',
  'keep-watching',
  'clinic-first',
])
export type AdviceName = z.infer<typeof AdviceName>

/** One text as a patient reads it. */
export const AdviceText = z.strictObject({
  text: z.string(),
  /** 'standard' or the number of the clinic's own version. */
  version: z.string(),
  /** Whether a qualified person has read it: a translation that nobody has read says so where it stands. */
  read: z.boolean(),
})
export type AdviceText = z.infer<typeof AdviceText>

/** All texts in one language. */
export type AdviceTexts = Readonly<Record<AdviceName, AdviceText>>
