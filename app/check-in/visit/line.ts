import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Draft } from '../answers/draft.ts'
import { submissionOf } from '../answers/submission.ts'
import type { Waiting } from '../keep/keep.ts'

/** A draft as it goes into the line: its report, and the answers beside it, so that it can be changed while it waits. */
export const asWaiting = (draft: Draft, view: CheckInView, now: string): Waiting => ({
  key: draft.key,
  person: draft.person,
  body: submissionOf(draft, view, now),
  confirmedAt: now,
  draft,
})

/** What waits and still counts: one that another waiting report corrects is not a report of its own any more. */
export function standing(waits: Waiting[]): Waiting[] {
  const corrected = new Set(waits.map(({ body }) => body.supersedesKey))
  return waits.filter(({ key }) => !corrected.has(key))
}

/** What can be sent: the clinic has not refused it. */
export const unsent = (waits: Waiting[]): Waiting[] => waits.filter(({ problem }) => !problem)

/** Whether a report says the same as one that was sent before the form was done, apart from what it corrects. */
export function saysTheSame(a: Waiting['body'], b: Waiting['body']): boolean {
  const bare = ({ supersedes: _, supersedesKey: __, ...body }: Waiting['body']) => JSON.stringify(body)
  return bare(a) === bare(b)
}
