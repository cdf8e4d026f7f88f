/** How long after a read of a patient's page another one by the same person counts as the same view. */
const VIEW_MS = 10 * 60_000

const KEY = Symbol.for('outflow.patient.views')
const shared = globalThis as typeof globalThis & { [KEY]?: Map<string, number> }

/**
 * Whether a member of staff read this patient's page within the last minutes; notes this read. An open page that
 * reads itself again stays one view, so that it does not fill the access record.
 */
export function isSameView(staffId: string, patientId: string, now: Date): boolean {
  shared[KEY] ??= new Map()
  const views = shared[KEY]
  const ms = now.getTime()
  for (const [key, at] of views) if (Math.abs(ms - at) >= VIEW_MS) views.delete(key)
  const key = `${staffId} ${patientId}`
  const isSame = views.has(key)
  views.set(key, ms)
  return isSame
}
