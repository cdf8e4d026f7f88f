import { callNext } from './call-next.ts'
import { callQuestions } from './call-questions.ts'
import type { CallTextBody, OwnCallTexts } from './call-text.ts'
import { FindingCode } from './words.ts'

const standardOf = (code: FindingCode): CallTextBody => ({
  ask: [...callQuestions[code]],
  advise: [...callNext[code].advise],
  escalate: [...callNext[code].escalate],
})

/** The texts of each finding as shipped. No clinic has approved them until it keeps them as its own. */
export const standardCallTexts = Object.fromEntries(
  FindingCode.options.map((code) => [code, standardOf(code)]),
) as Readonly<Record<FindingCode, CallTextBody>>

/** The text in force for a finding: the clinic's own, else the standard one. */
export const callTextOf = (own: OwnCallTexts, code: FindingCode): CallTextBody =>
  own[code]?.body ?? standardCallTexts[code]
