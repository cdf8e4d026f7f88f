import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { Draft } from '../answers/draft.ts'
import { type Keep, type Sent, sentOf, type Waiting } from './keep.ts'
import { memoryKeep } from './memory-keep.ts'

interface Shelves extends DBSchema {
  drafts: { key: string; value: Draft }
  waiting: { key: string; value: Waiting }
  sent: { key: string; value: Sent }
}

const DATABASE = 'check-in'
const VERSION = 1

/** The browser's own database, so that a closed tab or an empty battery loses nothing. */
export async function browserKeep(): Promise<Keep> {
  try {
    return keepIn(
      await openDB<Shelves>(DATABASE, VERSION, {
        upgrade(db) {
          db.createObjectStore('drafts', { keyPath: 'person' })
          db.createObjectStore('waiting', { keyPath: 'key' })
          db.createObjectStore('sent', { keyPath: 'person' })
        },
      }),
    )
  } catch {
    return memoryKeep()
  }
}

function keepIn(db: IDBPDatabase<Shelves>): Keep {
  /** `strict`: on the disk before it is done, so that 'kept' is true even when the battery dies now. */
  const all = (durability: 'strict' | 'relaxed' = 'strict') =>
    db.transaction(['drafts', 'waiting', 'sent'], 'readwrite', { durability })
  return {
    lasting: true,
    draftOf: (person) => db.get('drafts', person),
    async saveDraft(draft) {
      const tx = all('relaxed')
      const waits = await tx.objectStore('waiting').getKey(draft.key)
      const sent = await tx.objectStore('sent').get(draft.person)
      if (waits === undefined && sent?.key !== draft.key) await tx.objectStore('drafts').put(draft)
      await tx.done
    },
    dropDraft: (person) => db.delete('drafts', person),
    async confirm(report) {
      const tx = all()
      const waits = await tx.objectStore('waiting').getKey(report.key)
      const sent = await tx.objectStore('sent').get(report.person)
      const isNew = waits === undefined && sent?.key !== report.key
      if (isNew) await tx.objectStore('waiting').add(report)
      await tx.done
      return isNew ? 'kept' : waits === undefined ? 'sent-already' : 'waits-already'
    },
    async waitingOf(person) {
      const reports = await db.getAll('waiting')
      return reports
        .filter((report) => report.person === person)
        .sort((a, b) => a.confirmedAt.localeCompare(b.confirmedAt))
    },
    countWaiting: () => db.count('waiting'),
    async settle(report, receipt) {
      const tx = all()
      await tx.objectStore('waiting').delete(report.key)
      const draft = await tx.objectStore('drafts').get(report.person)
      if (draft?.key === report.key) await tx.objectStore('drafts').delete(report.person)
      await tx.objectStore('sent').put(sentOf(report, receipt))
      await tx.done
    },
    async giveBack(report, newKey) {
      const tx = all()
      await tx.objectStore('waiting').delete(report.key)
      const draft = await tx.objectStore('drafts').get(report.person)
      if (draft?.key === report.key) await tx.objectStore('drafts').put({ ...draft, key: newKey })
      await tx.done
    },
    sentBy: (person) => db.get('sent', person),
  }
}
