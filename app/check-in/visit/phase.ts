import type { Problem } from '@/lib/domain/problem.ts'
import type { Receipt, Submission } from '@/lib/domain/submission.ts'
import type { Draft } from '../answers/draft.ts'
import type { Sent } from '../keep/keep.ts'

/** Why reports wait: on their way; no network; the link is over; the clinic did not take them. */
export type Why = 'sending' | 'unreachable' | 'link-ended' | 'refused'

/** A report that the clinic refused, with its reasons. */
export type RefusedReport = { problem: Problem; body: Submission }

/** Where a visit to the page stands; one at a time. Whatever comes after 'resume' has a view beside it. */
export type Phase =
  | { name: 'opening' }
  /** The link is unknown, over or taken back: all read alike. `renewable`: opened by a link, which a code may renew. */
  | { name: 'closed'; renewable: boolean; waits: number }
  | { name: 'unreachable'; waits: number }
  /** Nothing is left on this phone. */
  | { name: 'forgotten' }
  /** A draft of some hours ago: the person says whether it still counts. `instead`: what they were about to begin. */
  | { name: 'resume'; draft: Draft; instead: Draft | null }
  | { name: 'form'; draft: Draft; refused: RefusedReport | null }
  /** What waits, in plain sight; `key` is the report that was confirmed last. */
  | { name: 'waiting'; key: string; why: Why }
  | { name: 'receipt'; receipt: Receipt; body: Submission }
  | { name: 'sent-elsewhere'; sent: Sent }
  /** Choosing which earlier entry to change. */
  | { name: 'choose'; back: Phase }
  /** Asked before this phone forgets everything. */
  | { name: 'forget'; back: Phase; waits: number; failed: boolean }
