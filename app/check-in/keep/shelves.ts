import type { Draft } from '../answers/draft.ts'
import type { KeptView, Sent, Waiting } from './keep.ts'

/** What each shelf of the browser's database holds, and by what a row is found. */
type Rows = { drafts: Draft; waiting: Waiting; sent: Sent; views: KeptView }
type Shelf = keyof Rows

const DATABASE = 'check-in'
const VERSION = 2
const keyPaths: Readonly<Record<Shelf, string>> = {
  drafts: 'person',
  waiting: 'key',
  sent: 'person',
  views: 'person',
}
export const SHELVES = Object.keys(keyPaths) as Shelf[]

/** Opens the database; rejects where the browser refuses its storage. */
export function openShelves(): Promise<IDBDatabase> {
  const opening = indexedDB.open(DATABASE, VERSION)
  opening.onupgradeneeded = () => {
    const db = opening.result
    for (const shelf of SHELVES)
      if (!db.objectStoreNames.contains(shelf)) db.createObjectStore(shelf, { keyPath: keyPaths[shelf] })
  }
  return answered(opening).then((db) => {
    // Another tab has a newer page: it need not wait for this one.
    db.onversionchange = () => db.close()
    return db
  })
}

/** One step on all shelves: done as a whole when it resolves, or not at all. */
export async function step<T>(
  db: IDBDatabase,
  durability: 'strict' | 'relaxed',
  work: (tx: Step) => Promise<T>,
): Promise<T> {
  const tx = db.transaction(SHELVES, 'readwrite', { durability })
  const whole = new Promise<void>((resolve, reject) => {
    tx.oncomplete = () => resolve()
    tx.onabort = () => reject(tx.error)
  })
  const result = await work((shelf) => rowsOf(tx, shelf)).catch((error: unknown) => {
    whole.catch(() => undefined)
    throw error
  })
  await whole
  return result
}
type Step = <S extends Shelf>(shelf: S) => ReturnType<typeof rowsOf<S>>

export const reading = <S extends Shelf>(db: IDBDatabase, shelf: S) => rowsOf(db.transaction(shelf), shelf)

function rowsOf<S extends Shelf>(tx: IDBTransaction, shelf: S) {
  const store = tx.objectStore(shelf)
  return {
    get: (key: string): Promise<Rows[S] | undefined> => answered(store.get(key)),
    all: (): Promise<Rows[S][]> => answered(store.getAll()),
    put: (row: Rows[S]): Promise<unknown> => answered(store.put(row)),
    delete: (key: string): Promise<unknown> => answered(store.delete(key)),
    clear: (): Promise<unknown> => answered(store.clear()),
  }
}

const answered = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
