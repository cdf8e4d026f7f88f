import { adviceFor } from '@/lib/domain/advice.ts'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Advice } from '@/lib/domain/submission.ts'
import type { Draft } from './draft.ts'
import { submissionOf } from './submission.ts'

/** Advice that fits the answers so far, from the page itself. */
export const adviceNow = (draft: Draft, view: CheckInView, now: string): Advice[] =>
  adviceFor(submissionOf(draft, view, now), view.drains)

/** What cannot wait until the report is sent. */
export const urgentNow = (draft: Draft, view: CheckInView, now: string): Advice[] =>
  adviceNow(draft, view, now).filter(
    (advice) => advice.urgency === 'emergency' || advice.urgency === 'call-now',
  )

/** Urgent advice that one answer brings: what is there with it and not without it. */
export function urgentBy(draft: Draft, without: Draft, view: CheckInView, now: string): Advice[] {
  const before = new Set(urgentNow(without, view, now).map((advice) => advice.text))
  return urgentNow(draft, view, now).filter((advice) => !before.has(advice.text))
}

/** Emergencies that interrupt the form: those not yet read. */
export const unreadEmergencies = (draft: Draft, view: CheckInView, now: string): Advice[] =>
  urgentNow(draft, view, now).filter(
    (advice) => advice.urgency === 'emergency' && !draft.adviceRead.includes(advice.text),
  )
