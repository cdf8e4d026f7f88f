import type { Receipt, Submission } from '@/lib/domain/submission.ts'
import type { Draft } from '../answers/draft.ts'

/** A confirmed report that the clinic has not answered yet. */
export type Waiting = { key: string; person: string; body: Submission; confirmedAt: string }

/** What is remembered of the last report that the clinic answered: no answers, only that it went. */
export type Sent = { person: string; key: string; receipt: string; receivedAt: string }

/**
 * What the phone keeps between a first answer and the receipt. Each step is whole or not done at all, also
 * with two tabs open: a draft becomes one waiting report, and a waiting report becomes one receipt.
 */
export type Keep = {
  /** False when the browser refuses its storage: then only this open page holds the answers. */
  lasting: boolean
  draftOf(person: string): Promise<Draft | undefined>
  /** Does nothing once the report of this draft waits or was sent, so that a second tab brings nothing back. */
  saveDraft(draft: Draft): Promise<void>
  dropDraft(person: string): Promise<void>
  confirm(waiting: Waiting): Promise<'kept' | 'waits-already' | 'sent-already'>
  /** The waiting reports of one person, the oldest first. */
  waitingOf(person: string): Promise<Waiting[]>
  /** How many reports wait, whosever they are. */
  countWaiting(): Promise<number>
  /** The clinic has it: forget the answers, remember that they went. */
  settle(waiting: Waiting, receipt: Receipt): Promise<void>
  /** The clinic refused it: it waits no more, and the person may change it under a new key. */
  giveBack(waiting: Waiting, newKey: string): Promise<void>
  sentBy(person: string): Promise<Sent | undefined>
}

export const sentOf = (waiting: Waiting, receipt: Receipt): Sent => ({
  person: waiting.person,
  key: waiting.key,
  receipt: receipt.receipt,
  receivedAt: receipt.receivedAt,
})
