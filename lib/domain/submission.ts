import { z } from 'zod'
import { AdviceName } from './advice-text.ts'
import { NOTE_MAX, UNCONFIRMED_MAX_ML } from './limits.ts'
import { Dressing, Flush, Reading, Symptoms } from './record.ts'

export { UNCONFIRMED_MAX_ML } from './limits.ts'
/** Most readings that one report takes. */
export const READINGS_MAX = 50
/** Largest body that a door takes, in bytes. */
export const BODY_MAX_BYTES = 64 * 1024

const SubmittedReading = Reading.extend({
  /** Says that a volume over 5000 mL was asked again and is meant. */
  confirmed: z.boolean({ error: 'accepted: true or false' }).optional(),
}).superRefine((reading, context) => {
  if (reading.volumeMl != null && reading.volumeMl > UNCONFIRMED_MAX_ML && !reading.confirmed)
    context.addIssue({
      code: 'custom',
      path: ['volumeMl'],
      message: `accepted: 0 to ${UNCONFIRMED_MAX_ML} mL in one reading; a larger one needs "confirmed": true beside it`,
    })
})

/** Who gave the report: the patient, a helper, a nurse on the phone, another system. */
export const Reporter = z.enum(['patient', 'helper', 'phone-in', 'system'], {
  error: 'accepted: patient, helper, phone-in, system',
})
export type Reporter = z.infer<typeof Reporter>

/**
 * One report as it arrives, through whichever door. Drains are named by their id.
 * The store gives it its id and the instant of receipt.
 */
export const Submission = z
  .strictObject({
    reporter: Reporter.optional(),
    readings: z
      .array(SubmittedReading)
      .max(READINGS_MAX, `accepted: at most ${READINGS_MAX} readings in one report`)
      .optional(),
    flushes: z.array(Flush).max(50, 'accepted: at most 50 flushes in one report').optional(),
    dressings: z.array(Dressing).max(50, 'accepted: at most 50 dressing changes in one report').optional(),
    symptoms: Symptoms.nullish(),
    supersedes: z.string().nullish(),
    /** The idempotency key under which the report that this corrects was sent: a phone without a network knows no id yet. */
    supersedesKey: z.string().nullish(),
    /** The reporter's own words. Kept and shown; the rules do not read it. */
    note: z.string().max(NOTE_MAX, `accepted: at most ${NOTE_MAX} characters`).nullish(),
  })
  .superRefine((report, context) => {
    const empty = !report.readings?.length && !report.flushes?.length && !report.dressings?.length
    if (empty && !report.symptoms && !report.note)
      context.addIssue({
        code: 'custom',
        path: [],
        message:
          'accepted: a report with at least one reading, flush, dressing change, symptom statement or note',
      })
  })
export type Submission = z.infer<typeof Submission>

/** One text that the sender reads, as it stood then: which one, in which version, and whether a qualified person read it. */
export const Advice = z.strictObject({
  name: AdviceName,
  urgency: z.enum(['emergency', 'call-now', 'call-today', 'information']),
  text: z.string(),
  version: z.string(),
  read: z.boolean(),
})
export type Advice = z.infer<typeof Advice>

/** The answer to a report: stored and assessed. A repeat of the same idempotency key gets the same receipt. */
export const Receipt = z.strictObject({
  receipt: z.string(),
  report: z.string(),
  receivedAt: z.string(),
  advice: z.array(Advice),
})
export type Receipt = z.infer<typeof Receipt>
