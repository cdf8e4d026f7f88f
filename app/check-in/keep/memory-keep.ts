import type { Draft } from '../answers/draft.ts'
import {
  inOrder,
  type Keep,
  type KeptView,
  keptViewOf,
  latest,
  nextOrder,
  type Sent,
  sentOf,
  type Waiting,
  wasSent,
  withoutRefused,
} from './keep.ts'

/** A keep that lasts as long as the open page: for browsers that refuse storage. */
export function memoryKeep(): Keep {
  const drafts = new Map<string, Draft>()
  const waiting = new Map<string, Waiting>()
  const sent = new Map<string, Sent>()
  const views = new Map<string, KeptView>()
  const isSent = (person: string, key: string) => wasSent(sent.get(person), key)
  const dropDraftOf = ({ person, key }: Waiting) => {
    if (drafts.get(person)?.key === key) drafts.delete(person)
  }
  return {
    lasting: false,
    draftOf: async (person) => drafts.get(person),
    async saveDraft(draft) {
      if (!waiting.has(draft.key) && !isSent(draft.person, draft.key)) drafts.set(draft.person, draft)
    },
    async dropDraft(person) {
      drafts.delete(person)
    },
    async confirm(report, goesOn) {
      if (isSent(report.person, report.key)) return 'sent-already'
      if (waiting.has(report.key)) return 'waits-already'
      waiting.set(report.key, { ...report, order: report.order ?? nextOrder([...waiting.values()]) })
      dropDraftOf(report)
      if (goesOn) drafts.set(goesOn.person, goesOn)
      return 'kept'
    },
    waitingOf: async (person) => inOrder([...waiting.values()].filter((report) => report.person === person)),
    allWaiting: async () => inOrder([...waiting.values()]),
    async settle(report, receipt) {
      waiting.delete(report.key)
      dropDraftOf(report)
      sent.set(report.person, sentOf(report, receipt, sent.get(report.person)))
    },
    async setAside(report, problem) {
      for (const other of waiting.values()) waiting.set(other.key, withoutRefused(other, report))
      waiting.set(report.key, { ...report, problem })
    },
    async takeBack(report, draft) {
      waiting.delete(report.key)
      drafts.set(draft.person, draft)
    },
    sentBy: async (person) => sent.get(person),
    async keepView(view, link, openedAt) {
      const { id } = view.patient
      views.set(id, keptViewOf(view, link, openedAt, views.get(id)))
    },
    viewByLink: async (link) => [...views.values()].find(({ links }) => links.includes(link)),
    currentView: async () => latest([...views.values()]),
    async endView(person) {
      views.delete(person)
    },
    async forget() {
      for (const shelf of [drafts, waiting, sent, views]) shelf.clear()
    },
  }
}

/** The same, begun with what another keep could still read: when a disk stops taking anything in the middle of a visit. */
export async function memoryKeepFrom(other: Keep): Promise<Keep> {
  const keep = memoryKeep()
  const [waiting, kept] = await Promise.all([
    other.allWaiting().catch(() => []),
    other.currentView().catch(() => undefined),
  ])
  for (const report of waiting) await keep.confirm(report)
  if (kept) await keep.keepView(kept.view, kept.links.at(-1) ?? null, kept.openedAt)
  return keep
}
