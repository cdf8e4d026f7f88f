import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
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
import { memoryKeep } from './memory-keep.ts'

interface Shelves extends DBSchema {
  drafts: { key: string; value: Draft }
  waiting: { key: string; value: Waiting }
  sent: { key: string; value: Sent }
  views: { key: string; value: KeptView }
}

const DATABASE = 'check-in'
const VERSION = 2
const SHELVES = ['drafts', 'waiting', 'sent', 'views'] as const

/** The browser's own database, so that a closed tab or an empty battery loses nothing. */
export async function browserKeep(): Promise<Keep> {
  try {
    return keepIn(
      await openDB<Shelves>(DATABASE, VERSION, {
        upgrade(db, from) {
          if (from < 1) {
            db.createObjectStore('drafts', { keyPath: 'person' })
            db.createObjectStore('waiting', { keyPath: 'key' })
            db.createObjectStore('sent', { keyPath: 'person' })
          }
          db.createObjectStore('views', { keyPath: 'person' })
        },
        // Another tab has a newer page: it need not wait for this one.
        blocking: (_current, _blocked, event) => (event.target as IDBDatabase | null)?.close(),
      }),
    )
  } catch {
    return memoryKeep()
  }
}

function keepIn(db: IDBPDatabase<Shelves>): Keep {
  /** `strict`: on the disk before it is done, so that 'kept' is true even when the battery dies now. */
  const all = (durability: 'strict' | 'relaxed' = 'strict') =>
    db.transaction(SHELVES, 'readwrite', { durability })
  type All = ReturnType<typeof all>
  const dropDraftOf = async (tx: All, { person, key }: Waiting) => {
    const draft = await tx.objectStore('drafts').get(person)
    if (draft?.key === key) await tx.objectStore('drafts').delete(person)
  }
  return {
    lasting: true,
    draftOf: (person) => db.get('drafts', person),
    async saveDraft(draft) {
      const tx = all('relaxed')
      const waits = await tx.objectStore('waiting').getKey(draft.key)
      const sent = await tx.objectStore('sent').get(draft.person)
      if (waits === undefined && !wasSent(sent, draft.key)) await tx.objectStore('drafts').put(draft)
      await tx.done
    },
    dropDraft: (person) => db.delete('drafts', person),
    async confirm(report, goesOn) {
      const tx = all()
      const waiting = await tx.objectStore('waiting').getAll()
      const waits = waiting.some(({ key }) => key === report.key)
      const sent = wasSent(await tx.objectStore('sent').get(report.person), report.key)
      if (!waits && !sent) {
        await tx.objectStore('waiting').add({ ...report, order: report.order ?? nextOrder(waiting) })
        await dropDraftOf(tx, report)
        if (goesOn) await tx.objectStore('drafts').put(goesOn)
      }
      await tx.done
      return waits ? 'waits-already' : sent ? 'sent-already' : 'kept'
    },
    async waitingOf(person) {
      return inOrder((await db.getAll('waiting')).filter((report) => report.person === person))
    },
    allWaiting: async () => inOrder(await db.getAll('waiting')),
    async settle(report, receipt) {
      const tx = all()
      await tx.objectStore('waiting').delete(report.key)
      await dropDraftOf(tx, report)
      const earlier = await tx.objectStore('sent').get(report.person)
      await tx.objectStore('sent').put(sentOf(report, receipt, earlier))
      await tx.done
    },
    async setAside(report, problem) {
      const tx = all()
      const waiting = tx.objectStore('waiting')
      for (const other of await waiting.getAll()) await waiting.put(withoutRefused(other, report))
      await waiting.put({ ...report, problem })
      await tx.done
    },
    async takeBack(report, draft) {
      const tx = all()
      await tx.objectStore('waiting').delete(report.key)
      await tx.objectStore('drafts').put(draft)
      await tx.done
    },
    sentBy: (person) => db.get('sent', person),
    async keepView(view, link, openedAt) {
      const tx = all('relaxed')
      const views = tx.objectStore('views')
      await views.put(keptViewOf(view, link, openedAt, await views.get(view.patient.id)))
      await tx.done
    },
    async viewByLink(link) {
      return (await db.getAll('views')).find(({ links }) => links.includes(link))
    },
    currentView: async () => latest(await db.getAll('views')),
    endView: (person) => db.delete('views', person),
    async forget() {
      const tx = all()
      await Promise.all(SHELVES.map((shelf) => tx.objectStore(shelf).clear()))
      await tx.done
    },
  }
}
