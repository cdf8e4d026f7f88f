import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Reporter } from '../domain/submission.ts'
import type { Tx } from './client.ts'
import { rowOf, sql } from './rows.ts'

/** When a member of staff last opened the patient's page; null where nobody has. */
export async function readAtOf(tx: Tx, patientId: string): Promise<string | null> {
  const found = await rowOf(
    tx,
    'patient state',
    z.object({ readAt: Instant.nullable() }),
    sql`SELECT "readAt" FROM "PatientState" WHERE "patientId" = ${patientId}`,
  )
  return found?.readAt ?? null
}

/** Notes that a patient was heard, where the assessment that would have said so failed. */
export async function noteHeard(
  tx: Tx,
  patientId: string,
  lastHeardAt: string,
  lastHeardFrom: Reporter,
): Promise<void> {
  await tx.patientState.update({ where: { patientId }, data: { lastHeardAt, lastHeardFrom } })
}
