import { type AdviceContext, adviceFor } from '@/lib/domain/advice.ts'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Language } from '@/lib/domain/languages.ts'
import type { Advice } from '@/lib/domain/submission.ts'
import type { Draft } from './draft.ts'
import { submissionOf } from './submission.ts'

/** What advice on the phone is judged by and worded in: the person's thresholds, the clinic's texts, the time. */
export const adviceContext = (view: CheckInView, language: Language, now: string): AdviceContext => ({
  limits: view.limits,
  texts: view.texts[language],
  now,
})

/** The clinic's words, the language and the time in which advice is asked for on the page. */
export type Here = { view: CheckInView; language: Language; now: string }

/** Advice that fits the answers so far, from the page itself. */
export const adviceNow = (draft: Draft, { view, language, now }: Here): Advice[] =>
  adviceFor(submissionOf(draft, view, now), view.drains, adviceContext(view, language, now))

/** What cannot wait until the report is sent. */
export const urgentNow = (draft: Draft, here: Here): Advice[] =>
  adviceNow(draft, here).filter(({ urgency }) => urgency === 'emergency' || urgency === 'call-now')

/** Urgent advice that one answer brings: what is there with it and not without it. */
export function urgentBy(draft: Draft, without: Draft, here: Here): Advice[] {
  const before = new Set(urgentNow(without, here).map(nameOf))
  return urgentNow(draft, here).filter((advice) => !before.has(nameOf(advice)))
}

/** Emergencies that interrupt the form: those not yet read. */
export const unreadEmergencies = (draft: Draft, here: Here): Advice[] =>
  urgentNow(draft, here).filter(
    (advice) => advice.urgency === 'emergency' && !draft.adviceRead.includes(nameOf(advice)),
  )

/** By what a piece of advice is known, whatever the language of its words. */
export const nameOf = ({ name, text }: Advice): string => name ?? text
