import { z } from 'zod'
import type { Tx } from './client.ts'
import { rowOf, sql } from './rows.ts'

export const SendingSystem = z.object({ id: z.string(), clinicId: z.string(), name: z.string() })
export type SendingSystem = z.infer<typeof SendingSystem>

/** The sending system of a key's hash, unless it was revoked. */
export const systemByHash = (tx: Tx, keyHash: string): Promise<SendingSystem | null> =>
  rowOf(
    tx,
    'sending system',
    SendingSystem,
    sql`SELECT "id", "clinicId", "name" FROM "SendingSystem" WHERE "keyHash" = ${keyHash} AND "revokedAt" IS NULL`,
  )

export async function addSystem(
  tx: Tx,
  system: SendingSystem & { keyHash: string; recordedAt: string; recordedBy: string },
): Promise<void> {
  await tx.sendingSystem.create({ data: system })
}
