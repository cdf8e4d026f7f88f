import type { Draft } from '../answers/draft.ts'
import { type Keep, type Sent, sentOf, type Waiting } from './keep.ts'

/** A keep that lasts as long as the open page: for browsers that refuse storage. */
export function memoryKeep(): Keep {
  const drafts = new Map<string, Draft>()
  const waiting = new Map<string, Waiting>()
  const sent = new Map<string, Sent>()
  const isSent = (person: string, key: string) => sent.get(person)?.key === key
  return {
    lasting: false,
    draftOf: async (person) => drafts.get(person),
    async saveDraft(draft) {
      if (!waiting.has(draft.key) && !isSent(draft.person, draft.key)) drafts.set(draft.person, draft)
    },
    async dropDraft(person) {
      drafts.delete(person)
    },
    async confirm(report) {
      if (isSent(report.person, report.key)) return 'sent-already'
      if (waiting.has(report.key)) return 'waits-already'
      waiting.set(report.key, report)
      return 'kept'
    },
    waitingOf: async (person) =>
      [...waiting.values()]
        .filter((report) => report.person === person)
        .sort((a, b) => a.confirmedAt.localeCompare(b.confirmedAt)),
    countWaiting: async () => waiting.size,
    async settle(report, receipt) {
      waiting.delete(report.key)
      if (drafts.get(report.person)?.key === report.key) drafts.delete(report.person)
      sent.set(report.person, sentOf(report, receipt))
    },
    async giveBack(report, newKey) {
      waiting.delete(report.key)
      const draft = drafts.get(report.person)
      if (draft?.key === report.key) drafts.set(report.person, { ...draft, key: newKey })
    },
    sentBy: async (person) => sent.get(person),
  }
}
