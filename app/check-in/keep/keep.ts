import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Problem } from '@/lib/domain/problem.ts'
import type { Receipt, Submission } from '@/lib/domain/submission.ts'
import type { Draft } from '../answers/draft.ts'

/** A confirmed report that the clinic has not taken yet. */
export type Waiting = {
  key: string
  person: string
  body: Submission
  confirmedAt: string
  /** Its place in the line, given by the keep: the phone's clock may be set back between two reports. */
  order?: number
  /** The answers as they were typed, so that it can be changed while it waits. */
  draft?: Draft
  /** Why the clinic refused it: it waits for its person now, and those behind it go on. */
  problem?: Problem
}

/** What is remembered of the last report that the clinic answered: no answers, only that it went. */
export type Sent = {
  person: string
  key: string
  receipt: string
  receivedAt: string
  /** The keys of the last ones, so that a second tab brings none of them back. */
  keys?: string[]
}

/** What the clinic showed at the last visit, so that the page opens without a network. */
export type KeptView = {
  person: string
  view: CheckInView
  /** SHA-256 of the tokens of this person's links: a link that is opened without a network finds its person. */
  links: string[]
  /** By the phone's clock: the one opened last is whose session the browser holds. */
  openedAt: string
}

/**
 * What the phone keeps between visits. Each step is whole or not done at all, also with two tabs open: a draft
 * becomes one waiting report, and a waiting report becomes one receipt.
 */
export type Keep = {
  /** False when the browser refuses its storage: then only this open page holds the answers. */
  lasting: boolean
  draftOf(person: string): Promise<Draft | undefined>
  /** Does nothing once the report of this draft waits or was sent, so that a second tab brings nothing back. */
  saveDraft(draft: Draft): Promise<void>
  dropDraft(person: string): Promise<void>
  /** Puts a report in line. `goesOn`: a draft that goes on after it, kept in the same step. */
  confirm(waiting: Waiting, goesOn?: Draft): Promise<'kept' | 'waits-already' | 'sent-already'>
  /** The waiting reports of one person in their order, those that were refused among them. */
  waitingOf(person: string): Promise<Waiting[]>
  /** All that waits, whosever it is. */
  allWaiting(): Promise<Waiting[]>
  /** The clinic has it: forget the answers, remember that they went. */
  settle(waiting: Waiting, receipt: Receipt): Promise<void>
  /** The clinic refused it: it stays with the reason, and what corrects it corrects what it would have corrected. */
  setAside(waiting: Waiting, problem: Problem): Promise<void>
  /** A report leaves the line and becomes the draft again, under the draft's own new key. */
  takeBack(waiting: Waiting, draft: Draft): Promise<void>
  sentBy(person: string): Promise<Sent | undefined>
  keepView(view: CheckInView, link: string | null, openedAt: string): Promise<void>
  viewByLink(link: string): Promise<KeptView | undefined>
  /** The view that was opened last. */
  currentView(): Promise<KeptView | undefined>
  /** The link is over: what it showed goes; what waits stays. */
  endView(person: string): Promise<void>
  /** Everything, whosever it is. */
  forget(): Promise<void>
}

const KEYS_REMEMBERED = 50
const LINKS_REMEMBERED = 5

export const sentOf = (waiting: Waiting, receipt: Receipt, earlier: Sent | undefined): Sent => ({
  person: waiting.person,
  key: waiting.key,
  receipt: receipt.receipt,
  receivedAt: receipt.receivedAt,
  keys: [...(earlier?.keys ?? []), waiting.key].slice(-KEYS_REMEMBERED),
})

export const wasSent = (sent: Sent | undefined, key: string): boolean =>
  sent?.key === key || (sent?.keys ?? []).includes(key)

export const keptViewOf = (
  view: CheckInView,
  link: string | null,
  openedAt: string,
  earlier: KeptView | undefined,
): KeptView => ({
  person: view.patient.id,
  view,
  links: [...new Set([...(earlier?.links ?? []), ...(link ? [link] : [])])].slice(-LINKS_REMEMBERED),
  openedAt,
})

export const latest = (views: KeptView[]): KeptView | undefined =>
  views.toSorted((a, b) => b.openedAt.localeCompare(a.openedAt))[0]

export const inOrder = (reports: Waiting[]): Waiting[] =>
  reports.toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0) || a.confirmedAt.localeCompare(b.confirmedAt))

export const nextOrder = (reports: Waiting[]): number =>
  1 + Math.max(0, ...reports.map(({ order }) => order ?? 0))

/** A report that was to correct a refused one, which the clinic never had: it corrects what that one would have. */
export function withoutRefused(report: Waiting, refused: Waiting): Waiting {
  if (report.body.supersedesKey !== refused.key) return report
  const { supersedesKey: _, supersedes: __, ...body } = report.body
  const { supersedes, supersedesKey } = refused.body
  return {
    ...report,
    body: { ...body, ...(supersedes ? { supersedes } : {}), ...(supersedesKey ? { supersedesKey } : {}) },
  }
}
