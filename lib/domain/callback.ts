import { z } from 'zod'
import { Instant } from './instant.ts'
import { NextTry } from './next-try-said.ts'
import { FindingCode } from './words.ts'

/** How an attempt to call ended. Only `reached` is speaking to the patient or whoever looks after them. */
export const AttemptOutcome = z.enum(['reached', 'no-answer', 'left-message', 'wrong-number'], {
  error: 'accepted: reached, no-answer, left-message, wrong-number',
})
export type AttemptOutcome = z.infer<typeof AttemptOutcome>

/** Who rang whom. */
export const Direction = z.enum(['we-called', 'they-called'], { error: 'accepted: we-called, they-called' })
export type Direction = z.infer<typeof Direction>

/** Who was spoken to. `interpreter` stands in calls recorded before it was asked as a question of its own. */
export const SpokenTo = z.enum(['patient', 'helper', 'interpreter'])
export type SpokenTo = z.infer<typeof SpokenTo>

const spokenToAccepted = 'accepted: patient, helper'
export const SpokenNow = SpokenTo.exclude(['interpreter'], { error: spokenToAccepted })
export type SpokenNow = z.infer<typeof SpokenNow>

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

/** One question of the call sheet that was asked, and the answer as it was noted; empty: none was noted. */
export const AskedAnswer = z.strictObject({
  code: FindingCode,
  /** The drain that it is about; null: the whole patient. */
  drain: z.string().max(100).nullable(),
  question: z
    .string({ error: 'accepted: the question as it was asked' })
    .trim()
    .min(1, 'accepted: the question as it was asked')
    .max(300, 'accepted: at most 300 characters'),
  answer: z.string().trim().max(500, 'accepted: at most 500 characters'),
})
export type AskedAnswer = z.infer<typeof AskedAnswer>

/** What was said in a call, as far as a correction may change it. */
const said = {
  outcome: AttemptOutcome,
  spokenTo: SpokenNow.nullish(),
  interpreter: z.boolean({ error: 'accepted: true, false' }).optional(),
  agreed: z.array(Agreed).optional(),
  /** Whether the patient said back in their own words what was agreed; null: not asked. */
  teachBack: z.boolean({ error: 'accepted: true, false, null (not asked)' }).nullish(),
  lookAgainAt: Instant.nullish(),
  note: z.string().trim().max(4000, 'accepted: at most 4000 characters').optional(),
}

type Said = {
  outcome: AttemptOutcome
  spokenTo?: SpokenNow | null | undefined
  agreed?: Agreed[] | undefined
}

/** Whoever was reached was somebody, and something was agreed. */
function saidFaults({ outcome, spokenTo, agreed }: Said): { field: string; message: string }[] {
  if (outcome !== 'reached') return []
  return [
    ...(spokenTo ? [] : [{ field: 'spokenTo', message: spokenToAccepted }]),
    ...(agreed?.length ? [] : [{ field: 'agreed', message: 'accepted: at least one thing that was agreed' }]),
  ]
}

/**
 * One attempt to call, as a nurse records it. It names the flags that it closes; only an attempt
 * that reached somebody closes any. A flag of within-1h or sooner that still holds needs `lookAgainAt`.
 */
export const NewCallback = z
  .strictObject({
    ...said,
    direction: Direction.optional(),
    /** Whom of the contacts was called, by name; none: the patient. */
    contact: z.string().trim().max(200, 'accepted: at most 200 characters').nullish(),
    closes: z.array(z.string()).max(200, 'accepted: at most 200 flags').optional(),
    /** What was asked by the call sheet; only of a call that reached somebody. */
    asked: z.array(AskedAnswer).max(60, 'accepted: at most 60 questions').optional(),
  })
  .superRefine((call, context) => {
    const faults = saidFaults(call)
    if (call.outcome !== 'reached' && call.closes?.length)
      faults.push({
        field: 'closes',
        message: 'accepted only where somebody was reached: not reached never closes a flag',
      })
    if (call.outcome !== 'reached' && call.asked?.length)
      faults.push({ field: 'asked', message: 'accepted only where somebody was reached: nobody was asked' })
    if (call.outcome !== 'reached' && call.direction === 'they-called')
      faults.push({ field: 'outcome', message: 'accepted: reached, of somebody who called' })
    for (const { field, message } of faults) context.addIssue({ code: 'custom', path: [field], message })
  })
export type NewCallback = z.infer<typeof NewCallback>

/** What should have been recorded of a call, and why it was not. Both stay readable. */
export const CallCorrection = z
  .strictObject({
    ...said,
    why: z
      .string({ error: 'accepted: why it is corrected' })
      .trim()
      .min(1, 'accepted: why it is corrected')
      .max(500, 'accepted: at most 500 characters'),
  })
  .superRefine((call, context) => {
    for (const { field, message } of saidFaults(call))
      context.addIssue({ code: 'custom', path: [field], message })
  })
export type CallCorrection = z.infer<typeof CallCorrection>

export const Callback = z.strictObject({
  id: z.string(),
  at: Instant,
  recordedAt: Instant,
  by: z.string(),
  byId: z.string(),
  direction: Direction,
  contact: z.string().nullable(),
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  interpreter: z.boolean(),
  agreed: z.array(Agreed),
  teachBack: z.boolean().nullable(),
  closes: z.array(z.string()),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
  /** The questions of the call sheet that were asked, each with its answer. */
  asked: z.array(AskedAnswer),
  /** Of a correction: the call that it corrects, and why. */
  corrects: z.string().nullable(),
  why: z.string().nullable(),
  /** The correction of this call; it stays, and no longer counts. */
  correctedBy: z.string().nullable(),
  /** When and by whom it was taken back within its minute. */
  undoneAt: Instant.nullable(),
  undoneBy: z.string().nullable(),
})
export type Callback = z.infer<typeof Callback>

/** How long whoever recorded a call may take it back. */
export const UNDO_SECONDS = 60

/** Calls that count: neither taken back nor replaced by a correction. */
export const standingCalls = <T extends Pick<Callback, 'undoneAt' | 'correctedBy'>>(
  calls: readonly T[],
): T[] => calls.filter(({ undoneAt, correctedBy }) => undoneAt === null && correctedBy === null)

/** `closed` are the flags that it closed: those it names, and those for which only the call was owed. */
export const CallbackRecorded = z.strictObject({
  callback: z.string(),
  closed: z.array(z.string()),
  /** Until when whoever recorded it may take it back. */
  undoUntil: Instant,
  nextTry: NextTry.nullable(),
})
export type CallbackRecorded = z.infer<typeof CallbackRecorded>
