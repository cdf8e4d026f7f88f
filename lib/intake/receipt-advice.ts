import { type AdviceContext, adviceOf, casesOf } from '../domain/advice.ts'
import type { Assessment } from '../domain/assessment.ts'
import { textsForFindings } from '../domain/finding-advice.ts'
import type { Language } from '../domain/languages.ts'
import type { Advice, Submission } from '../domain/submission.ts'
import type { Tx } from '../store/index.ts'
import type { Composed } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { adviceLimits } from './advice-limits.ts'
import { textsInForce } from './advice-texts-in-force.ts'
import { drainsInPlace } from './check-in-drains.ts'

/**
 * What a receipt tells the sender to do: what the answers themselves call for, as the phone has said already, together with
 * the texts for the most urgent that the rules now hold of the whole record. Without an assessment, the former.
 * @param composed the record before the report
 */
export async function receiptAdvice(
  tx: Tx,
  composed: Composed,
  says: Submission,
  assessment: Assessment | null,
  language: Language,
  now: Date,
): Promise<Advice[]> {
  const drains = drainsInPlace(composed, now)
  const inPlace = drains.map(({ id }) => id)
  const limits = await adviceLimits(tx, composed, inPlace, now)
  const texts = (await textsInForce(tx, composed.patient.clinicId))[language]
  const context: AdviceContext = { limits, texts, now: stored(now) }
  const isPleural = (drain: string) => drains.some(({ id, kind }) => id === drain && kind === 'pleural')
  return adviceOf(
    [...casesOf(says, drains, context), ...textsForFindings(assessment?.findings ?? [], isPleural)],
    texts,
  )
}
