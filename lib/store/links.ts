import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { LinkHolder } from '../domain/patient-link.ts'
import type { Tx } from './client.ts'
import { Bit, type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** A personal link. Of its token the store holds only the hash. */
export const StoredLink = z.object({
  id: z.string(),
  clinicId: z.string(),
  patientId: z.string(),
  holder: LinkHolder,
  holderName: z.string().nullable(),
  maySee: Bit,
  recordedAt: Instant,
  recordedBy: z.string(),
  expiresAt: Instant,
  renewedAt: Instant.nullable(),
  openedAt: Instant.nullable(),
})
export type StoredLink = z.infer<typeof StoredLink>

/** The link of a hash that was not revoked, expired or not. */
export const linkByHash = (tx: Tx, tokenHash: string): Promise<StoredLink | null> =>
  rowOf(
    tx,
    'link',
    StoredLink,
    sql`SELECT * FROM "PatientLink" WHERE "tokenHash" = ${tokenHash} AND "revokedAt" IS NULL`,
  )

/** A patient's links that were not revoked, expired ones included; the newest first. */
export const linksOf = (tx: Tx, patientId: string): Promise<Rows<StoredLink>> =>
  rowsOf(
    tx,
    'link',
    StoredLink,
    sql`SELECT * FROM "PatientLink" WHERE "patientId" = ${patientId} AND "revokedAt" IS NULL
        ORDER BY "recordedAt" DESC, "id"`,
  )

export async function addLink(tx: Tx, link: StoredLink & { tokenHash: string }): Promise<void> {
  await tx.patientLink.create({ data: link })
}

/** Revokes a patient's links, or one of them, and with them their sessions. Says how many there were. */
export async function revokeLinksOf(
  tx: Tx,
  patientId: string,
  revokedAt: string,
  revokedBy: string,
  id?: string,
): Promise<number> {
  const { count } = await tx.patientLink.updateMany({
    where: { patientId, revokedAt: null, ...(id === undefined ? {} : { id }) },
    data: { revokedAt, revokedBy },
  })
  return count
}

export async function renewLink(tx: Tx, id: string, renewedAt: string, expiresAt: string): Promise<void> {
  await tx.patientLink.update({ where: { id }, data: { renewedAt, expiresAt } })
}

export async function noteOpened(tx: Tx, id: string, openedAt: string): Promise<void> {
  await tx.patientLink.update({ where: { id }, data: { openedAt } })
}
