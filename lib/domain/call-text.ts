import { z } from 'zod'
import { Instant } from './instant.ts'
import { FindingCode } from './words.ts'

/**
 * What a question is answered with. All but `words` and `yes-no` tell a reading or a symptom, so that the answer can
 * stand in a report as it was given: `leak`, `draining`, `position`, `skin` and `volume` of one drain, the others of
 * the whole patient.
 */
export const AnswerKind = z.enum(
  [
    'words',
    'yes-no',
    'temperature',
    'chills',
    'pain',
    'general',
    'leak',
    'draining',
    'position',
    'skin',
    'volume',
  ],
  {
    error:
      'accepted: words, yes-no, temperature, chills, pain, general, leak, draining, position, skin, volume',
  },
)
export type AnswerKind = z.infer<typeof AnswerKind>

/** Longest question, and longest sentence of advice: they are read out. */
export const CALL_QUESTION_MAX = 160
export const CALL_SENTENCE_MAX = 240
/** Most questions, and most sentences of each kind, for one finding. */
export const CALL_QUESTIONS_MAX = 8
export const CALL_SENTENCES_MAX = 4

const sentence = (most: number) =>
  z
    .string({ error: 'accepted: a sentence' })
    .trim()
    .min(1, 'accepted: a sentence')
    .max(most, `accepted: at most ${most} characters`)
const sentences = z
  .array(sentence(CALL_SENTENCE_MAX))
  .max(CALL_SENTENCES_MAX, `accepted: at most ${CALL_SENTENCES_MAX} sentences`)

export const CallQuestion = z.strictObject({ question: sentence(CALL_QUESTION_MAX), answer: AnswerKind })
export type CallQuestion = z.infer<typeof CallQuestion>

/** What a caller says for one finding: what to ask, what to advise, when to call whom. */
export const CallTextBody = z.strictObject({
  ask: z
    .array(CallQuestion)
    .min(1, 'accepted: at least one question')
    .max(CALL_QUESTIONS_MAX, `accepted: at most ${CALL_QUESTIONS_MAX} questions`),
  advise: sentences,
  escalate: sentences,
})
export type CallTextBody = z.infer<typeof CallTextBody>

/**
 * A further version of the texts of a finding. `body` null: back to the standard text. `basedOn` is the number of the
 * version that the writer had before them, 0 for the standard text: whoever writes over a newer one is told so.
 */
export const NewCallText = z.strictObject({
  code: FindingCode,
  basedOn: z
    .int('accepted: the number of the version that was changed, 0 for the standard text')
    .min(0, 'accepted: the number of the version that was changed, 0 for the standard text'),
  body: CallTextBody.nullable(),
})
export type NewCallText = z.infer<typeof NewCallText>

/** The clinic's own texts in force, by finding; a finding that is not among them has the standard text. */
export const OwnCallTexts = z.partialRecord(
  FindingCode,
  z.strictObject({ version: z.number(), body: CallTextBody }),
)
export type OwnCallTexts = z.infer<typeof OwnCallTexts>

/** One version of a clinic's own; `body` null: it went back to the standard text. */
export const CallTextVersion = z.strictObject({
  version: z.number(),
  body: CallTextBody.nullable(),
  at: Instant,
  by: z.string(),
})
export type CallTextVersion = z.infer<typeof CallTextVersion>

/** The texts of one finding: what is in force, and every version, the newest first. */
export const CallTextOfFinding = z.strictObject({
  code: FindingCode,
  isStandard: z.boolean(),
  body: CallTextBody,
  versions: z.array(CallTextVersion),
})
export type CallTextOfFinding = z.infer<typeof CallTextOfFinding>

export const CallTextsPage = z.strictObject({ findings: z.array(CallTextOfFinding) })
export type CallTextsPage = z.infer<typeof CallTextsPage>

/** Whether an answer tells a reading or a symptom, so that it can stand in a report. */
export const tellsReport = (answer: AnswerKind): boolean => answer !== 'words' && answer !== 'yes-no'
