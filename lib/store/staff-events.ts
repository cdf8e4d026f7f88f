import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { FindingCode, StaffEventType } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { newId, type Rows, rowsOf, sql } from './rows.ts'

export const StoredStaffEvent = z.object({
  drainId: z.string().nullable(),
  at: Instant,
  type: StaffEventType,
  code: FindingCode.nullable(),
})
export type StoredStaffEvent = z.infer<typeof StoredStaffEvent>

/** What staff recorded by `until` and had not withdrawn by then, the earliest first. */
export const staffEventsOf = (tx: Tx, patientId: string, until: string): Promise<Rows<StoredStaffEvent>> =>
  rowsOf(
    tx,
    'staff event',
    StoredStaffEvent,
    sql`SELECT "id", "drainId", "at", "type", "code" FROM "StaffEvent"
        WHERE "patientId" = ${patientId} AND "recordedAt" <= ${until}
          AND ("withdrawnAt" IS NULL OR "withdrawnAt" > ${until}) ORDER BY "recordedAt", "id"`,
  )

export async function addStaffEvent(
  tx: Tx,
  event: StoredStaffEvent & { note: string | null; callbackId: string | null },
  recorded: Recorded,
): Promise<void> {
  await tx.staffEvent.create({ data: { id: newId(), ...event, ...recorded } })
}
