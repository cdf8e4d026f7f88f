import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { rowOf, sql } from './rows.ts'

const StoredCode = z.object({
  id: z.string(),
  patientId: z.string(),
  codeHash: z.string(),
  expiresAt: Instant,
  tries: z.coerce.number(),
})
export type StoredCode = z.infer<typeof StoredCode>

/** The code of a patient that can still be used, if there is one. */
export const liveCodeOf = (
  tx: Tx,
  patientId: string,
  now: string,
  mostTries: number,
): Promise<StoredCode | null> =>
  rowOf(
    tx,
    'renewal code',
    StoredCode,
    sql`SELECT * FROM "RenewalCode" WHERE "patientId" = ${patientId} AND "usedAt" IS NULL
        AND "expiresAt" > ${now} AND "tries" < ${mostTries} ORDER BY "recordedAt" DESC, "id" LIMIT 1`,
  )

/** Adds a code; one that was given before ends with it. */
export async function addCode(
  tx: Tx,
  code: Omit<StoredCode, 'tries'> & { clinicId: string; recordedAt: string; recordedBy: string },
): Promise<void> {
  await tx.renewalCode.updateMany({
    where: { patientId: code.patientId, usedAt: null, expiresAt: { gt: code.recordedAt } },
    data: { expiresAt: code.recordedAt },
  })
  await tx.renewalCode.create({ data: code })
}

export async function useCode(tx: Tx, id: string, usedAt: string): Promise<void> {
  await tx.renewalCode.update({ where: { id }, data: { usedAt } })
}

export async function countTry(tx: Tx, id: string): Promise<void> {
  await tx.renewalCode.update({ where: { id }, data: { tries: { increment: 1 } } })
}
