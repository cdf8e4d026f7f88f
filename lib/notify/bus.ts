import { EventEmitter } from 'node:events'

/** What has changed for a patient, for whoever has the worklist or that patient open. */
export type Change = {
  /** Empty where it is no one patient’s. */
  patientId: string
  kind:
    | 'report'
    | 'hold'
    | 'callback'
    | 'staff-event'
    | 'orders'
    | 'enrolled'
    | 'link'
    | 'time'
    | 'patient'
    | 'visit'
    | 'follow-up'
    | 'handover'
    | 'escalation'
}

const KEY = Symbol.for('outflow.bus')
const shared = globalThis as typeof globalThis & { [KEY]?: EventEmitter }

/** One per process, on globalThis: a server bundles this file more than once. */
function bus(): EventEmitter {
  shared[KEY] ??= new EventEmitter().setMaxListeners(0)
  return shared[KEY]
}

/** Tells whoever listens. Call it after the commit: what is told must be there to be read. */
export function tell(clinicId: string, change: Change): void {
  bus().emit(clinicId, change)
}

/** Calls `hear` on each change in a clinic, until the function that it returns is called. */
export function listen(clinicId: string, hear: (change: Change) => void): () => void {
  bus().on(clinicId, hear)
  return () => bus().off(clinicId, hear)
}
