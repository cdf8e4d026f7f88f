import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Draft } from '../answers/draft.ts'
import { draftFromReport, withTimesOf } from '../answers/from-report.ts'
import type { Waiting } from '../keep/keep.ts'

export { draftFromReport } from '../answers/from-report.ts'

/**
 * A waiting report once more as a draft. The clinic may have got it already, its answer lost: so it stays in line, and
 * the draft becomes another report that corrects it by its key.
 */
export function draftFromWaiting(waiting: Waiting, view: CheckInView, key: string, now: string): Draft {
  const { body, confirmedAt } = waiting
  const {
    dangerSentKey: _,
    supersedes: __,
    ...draft
  } = waiting.draft ? withTimesOf(body, waiting.draft, view) : draftFromReport(waiting, view, key, now)
  return {
    ...draft,
    key,
    step: 'check',
    startedAt: now,
    savedAt: now,
    supersedesKey: waiting.key,
    original: { sentAt: confirmedAt, body },
  }
}

/** A refused report once more as a draft, under a new key: the clinic never had it. */
export function draftFromRefused(waiting: Waiting, view: CheckInView, key: string, now: string): Draft {
  const { supersedes, supersedesKey } = waiting.body
  const draft = waiting.draft ?? draftFromReport(waiting, view, key, now)
  return {
    ...draft,
    key,
    savedAt: now,
    dangerSentKey: undefined,
    supersedes: supersedes ?? undefined,
    supersedesKey: supersedesKey ?? undefined,
  }
}
