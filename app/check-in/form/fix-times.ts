import { type Draft, type DrainAnswers, isCorrection } from '../answers/draft.ts'
import type { Step } from '../answers/steps.ts'

/**
 * 'Just now' becomes an instant when the first answer of its screen is given, and stays that instant,
 * however late the report is sent. How a person feels is dated by the last of those answers;
 * in a correction it stays a statement about the time that it was made for.
 */
export function fixTimes(draft: Draft, step: Step, now: string): Draft {
  const felt =
    step.kind === 'feel' || step.kind === 'tube' || step.kind === 'body'
      ? { ...draft, feltAt: isCorrection(draft) ? (draft.feltAt ?? now) : now }
      : draft
  if (!step.drain) return felt
  const answers: DrainAnswers = draft.drains[step.drain] ?? {}
  const fixed: DrainAnswers =
    step.kind === 'output'
      ? { ...answers, outputNow: answers.outputNow ?? now }
      : step.kind === 'flush'
        ? { ...answers, flushNow: answers.flushNow ?? now }
        : step.kind === 'dressing'
          ? { ...answers, dressingNow: answers.dressingNow ?? now }
          : answers
  return { ...felt, drains: { ...felt.drains, [step.drain]: fixed } }
}
