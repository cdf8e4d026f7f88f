import { useSyncExternalStore } from 'react'
import type { CallbackRecorded } from '../domain/callback.ts'

/** The call that was recorded last from this page. `books`: a visit was agreed that is still to be noted. */
export type RecordedCall = { patientId: string; name: string; recorded: CallbackRecorded; books: boolean }

let latest: RecordedCall | null = null
const listeners = new Set<() => void>()

/** Keeps a call for as long as it can be taken back; null drops it. */
export function noteRecordedCall(call: RecordedCall | null): void {
  latest = call
  for (const listener of listeners) listener()
}

const subscribe = (listener: () => void) => {
  listeners.add(listener)
  return () => void listeners.delete(listener)
}

/** The call that was recorded last, for whichever screen shows it. */
export const useRecordedCall = (): RecordedCall | null =>
  useSyncExternalStore(
    subscribe,
    () => latest,
    () => null,
  )
