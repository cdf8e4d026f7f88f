import { z } from 'zod'
import { FlaggedUrgency } from './after-hours.ts'
import type { Confidence } from './words.ts'

/** What follows when the tries at the patient's own number are used up, in the clinic's order. */
export const NoAnswerStep = z.enum(['next-day', 'contacts', 'on-call', 'welfare-check'], {
  error: 'accepted: next-day, contacts, on-call, welfare-check',
})
export type NoAnswerStep = z.infer<typeof NoAnswerStep>

const whole = (least: number, most: number) => {
  const error = `accepted: a whole number from ${least} to ${most}`
  return z.int({ error }).min(least, error).max(most, error)
}

/** How many tries, how far apart, and then what. `next-day` may come more than once: as many tries again. */
export const NoAnswerRule = z
  .strictObject({
    tries: whole(1, 10),
    everyMinutes: whole(1, 1440),

    next: z.array(NoAnswerStep).max(7, 'accepted: at most 7 steps'),
  })
  .refine(({ next }) => next.every((step, i) => step === 'next-day' || next.indexOf(step) === i), {
    path: ['next'],
    error: 'accepted: each step once; only the next day more than once',
  })
export type NoAnswerRule = z.infer<typeof NoAnswerRule>

/** The clinic's own rule by urgency. None of it ever closes a row or moves its act by. */
export const NoAnswer = z.strictObject({
  'at-once': NoAnswerRule,
  'within-1h': NoAnswerRule,
  'within-24h': NoAnswerRule,
  'within-3d': NoAnswerRule,
})
export type NoAnswer = z.infer<typeof NoAnswer>

/** Where a clinic has set none. */
export const standardNoAnswer: NoAnswer = {
  'at-once': { tries: 3, everyMinutes: 5, next: ['contacts', 'on-call', 'welfare-check'] },
  'within-1h': { tries: 3, everyMinutes: 15, next: ['contacts', 'on-call'] },
  'within-24h': { tries: 2, everyMinutes: 240, next: ['next-day', 'contacts'] },
  'within-3d': { tries: 2, everyMinutes: 1440, next: [] },
}
/** No source was found for any of its numbers. */
export const noAnswerConfidence: Confidence = 'local choice'

export const urgenciesOfRule = FlaggedUrgency.options

/** The rules as their screen reads them. */
export const NoAnswerPage = z.strictObject({
  rules: NoAnswer,
  isStandard: z.boolean(),
  changedAt: z.string().nullable(),
  changedBy: z.string().nullable(),
})
export type NoAnswerPage = z.infer<typeof NoAnswerPage>
