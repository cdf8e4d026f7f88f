import { z } from 'zod'
import { Agreed, AttemptOutcome, type Callback, SpokenTo } from '../domain/callback.ts'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { json, type Rows, rowsOf, sql } from './rows.ts'

const StoredCallback = z.object({
  id: z.string(),
  at: Instant,
  by: z.string(),
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  agreed: json(z.array(Agreed)),
  closes: json(z.array(z.string())),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
})

/** The latest calls to a patient, the latest first. `by` is the caller's name where it is known. */
export const callbacksOf = (tx: Tx, patientId: string, most: number): Promise<Rows<Callback>> =>
  rowsOf(
    tx,
    'callback',
    StoredCallback,
    sql`SELECT c.*, COALESCE(s."name", c."recordedBy") AS "by" FROM "Callback" c
        LEFT JOIN "Staff" s ON s."id" = c."recordedBy"
        WHERE c."patientId" = ${patientId} ORDER BY c."at" DESC, c."id" LIMIT ${most}`,
  )

export async function addCallback(
  tx: Tx,
  callback: Omit<Callback, 'by'>,
  recorded: { clinicId: string; patientId: string; recordedAt: string; recordedBy: string },
): Promise<void> {
  await tx.callback.create({
    data: {
      ...callback,
      agreed: JSON.stringify(callback.agreed),
      closes: JSON.stringify(callback.closes),
      ...recorded,
    },
  })
}
