import { type ListOnPaper, listMarkup, listStyle } from '../domain/downtime-list.ts'
import { browserNow } from './browser-clock.ts'

/** Names that app/downtime/worker/worker.js shares. */
const CACHE = 'staff list'
const LIST = '/downtime/list'

/** Caches and workers are for secure origins only: elsewhere nothing is kept, and no page comes without the server. */
export const canKeep = (): boolean => 'caches' in globalThis && 'serviceWorker' in navigator

/** Keeps the worklist on this workstation, in place of the one before: as ready markup, so that nothing is needed to show it. */
export async function keepList(list: ListOnPaper): Promise<void> {
  const kept = {
    asOf: list.asOf,
    keptMs: browserNow().getTime(),
    zone: list.clinic.timeZone,
    style: listStyle,
    markup: listMarkup(list),
  }
  const cache = await caches.open(CACHE)
  await cache.put(LIST, Response.json(kept))
}

/** Wipes the list off this workstation: whoever signs out leaves nothing of a patient behind. */
export async function forgetList(): Promise<void> {
  if (canKeep()) await caches.delete(CACHE).catch(() => false)
}

/** The worker that shows the kept list where the server cannot be reached. */
export async function startWorker(): Promise<void> {
  await navigator.serviceWorker.register('/downtime/worker.js', { scope: '/' })
}
