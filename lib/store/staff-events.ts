import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { FindingCode, StaffEventType } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { countedAt, newId, type Rows, rowsOf, sql } from './rows.ts'

export const StoredStaffEvent = z.object({
  drainId: z.string().nullable(),
  at: Instant,
  type: StaffEventType,
  code: FindingCode.nullable(),
})
export type StoredStaffEvent = z.infer<typeof StoredStaffEvent>

/** An event with its history: who recorded it when, and who withdrew it. */
export const EventRow = StoredStaffEvent.extend({
  id: z.string(),
  note: z.string().nullable(),
  callbackId: z.string().nullable(),
  recordedAt: Instant,
  recordedBy: z.string(),
  withdrawnAt: Instant.nullable(),
  withdrawnBy: z.string().nullable(),
})
export type EventRow = z.infer<typeof EventRow>

/**
 * All that staff recorded by `until`, the earliest first: what was withdrawn, and the entries that say why. Such an entry
 * repeats the event, holds the reason as its note, and is withdrawn from its own moment on, so that it never counts.
 */
export const eventRowsOf = (tx: Tx, patientId: string, until: string): Promise<Rows<EventRow>> =>
  rowsOf(
    tx,
    'staff event',
    EventRow,
    sql`SELECT * FROM "StaffEvent" WHERE "patientId" = ${patientId} AND "recordedAt" <= ${until}
        ORDER BY "recordedAt", "id"`,
  )

/** What staff recorded by `until` and had not withdrawn by then, the earliest first. */
export async function staffEventsOf(tx: Tx, patientId: string, until: string): Promise<Rows<EventRow>> {
  const { rows, unreadable } = await eventRowsOf(tx, patientId, until)
  return { rows: rows.filter(countedAt(until)), unreadable }
}

/** An entry that says why an event was withdrawn. */
export const isReason = ({ recordedAt, withdrawnAt }: EventRow): boolean =>
  withdrawnAt !== null && withdrawnAt <= recordedAt

type New = StoredStaffEvent & { note: string | null; callbackId: string | null }

/** @returns its id */
export async function addStaffEvent(tx: Tx, event: New, recorded: Recorded): Promise<string> {
  const id = newId()
  await tx.staffEvent.create({ data: { id, ...event, ...recorded } })
  return id
}

/** An event no longer counts from now on. With a reason a further entry says why. */
export async function withdrawEvent(
  tx: Tx,
  { id, drainId, at, type, code }: EventRow,
  why: string | null,
  recorded: Recorded,
): Promise<void> {
  const { recordedAt: withdrawnAt, recordedBy: withdrawnBy } = recorded
  await tx.staffEvent.updateMany({ where: { id, withdrawnAt: null }, data: { withdrawnAt, withdrawnBy } })
  if (why === null) return
  const entry = { drainId, at, type, code, note: why, callbackId: null }
  await tx.staffEvent.create({ data: { id: newId(), ...entry, ...recorded, withdrawnAt, withdrawnBy } })
}
