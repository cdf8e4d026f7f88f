import { UNDO_SECONDS } from '@/lib/domain/callback.ts'
import { isCorrectionNote, isCorrectionReason } from '@/lib/domain/drain-change.ts'
import { eventLabels } from '@/lib/domain/labels.ts'
import type { OrdersVersion, PatientPage } from '@/lib/domain/patient-page.ts'

/** What somebody recorded last on a patient's page, as far as it can be taken back. */
export type LatestChange = {
  key: string
  recordedAt: string
  isUndone: boolean
  says: string
  undone: string
  about: string
  /** The door that takes it back, below the patient's. */
  door: string
  body: object
}

/**
 * The latest event, change of orders or note of a member of staff, within its minute as of the page; null where there is none, or
 * where it is of a correction of a drain, which is not taken back.
 */
export function latestChange(page: PatientPage, staffId: string): LatestChange | null {
  const from = Date.parse(page.asOf) - UNDO_SECONDS * 1000
  const isRecent = ({ recordedAt, byId }: { recordedAt: string; byId: string }) =>
    byId === staffId && Date.parse(recordedAt) > from
  const whose = (drain: string | null) => (drain === null ? '' : `, ${page.labels[drain]?.label ?? drain}`)

  const events = page.events.filter((event) => event.callback === null && isRecent(event))
  const standing = Object.entries(page.orders).flatMap(([drain, versions]) =>
    versions.map((orders) => ({ orders, drain, isUndone: false })),
  )
  const gone = page.withdrawnOrders.map((orders) => ({ orders, drain: orders.drain, isUndone: true }))
  const changes = [...standing, ...gone].filter(({ orders }) => orders.version > 1 && isRecent(orders))
  const notes = page.notes.filter(({ at, byId }) => isRecent({ recordedAt: at, byId }))
  const all: (LatestChange & { isFixed?: boolean })[] = [
    ...notes.map(({ id, at, text, undoneAt }) => ({
      isFixed: isCorrectionNote(text),
      key: `note ${id}`,
      recordedAt: at,
      isUndone: undoneAt !== null,
      says: 'The note is signed.',
      undone: 'The note is taken back; it stays readable, struck out.',
      about: 'the note',
      door: `notes/${id}/undo`,
      body: {},
    })),
    ...events.map(({ id, drain, type, recordedAt, withdrawnAt }) => ({
      key: `event ${id}`,
      recordedAt,
      isUndone: withdrawnAt !== null,
      says: `The event is recorded. ${eventLabels[type]}${whose(drain)}.`,
      undone: `The event is taken back: everything stands as before it.`,
      about: 'the recorded event',
      door: `staff-events/${id}/undo`,
      body: {},
    })),
    ...changes.map(({ orders, drain, isUndone }) => ({
      isFixed: isCorrectionReason(orders.why),
      key: `orders ${drain} ${orders.version}`,
      recordedAt: orders.recordedAt,
      isUndone,
      says: `The orders are changed. Version ${orders.version}${whose(drain)}${inShort(orders)}.`,
      undone: 'The change of orders is taken back: the version before it is in force.',
      about: 'the changed orders',
      door: 'orders/undo',
      body: { drain, version: orders.version },
    })),
  ]
  const [latest] = all.toSorted((a, b) => Date.parse(b.recordedAt) - Date.parse(a.recordedAt))
  if (!latest) return null
  const { isFixed, ...change } = latest
  return isFixed ? null : change
}

const inShort = ({ changes }: OrdersVersion) => (changes.length > 0 ? `: ${changes.join('; ')}` : '')
