import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { rowOf, sql } from './rows.ts'

/** A patient's personal link and the short sessions that it opens. Of either the store holds only the hash. */
const StoredLink = z.object({
  id: z.string(),
  clinicId: z.string(),
  patientId: z.string(),
  expiresAt: Instant,
})
export type StoredLink = z.infer<typeof StoredLink>

/** The link of a hash, if it is in force: neither revoked nor expired. */
export const linkByHash = (tx: Tx, tokenHash: string, now: string): Promise<StoredLink | null> =>
  rowOf(
    tx,
    'link',
    StoredLink,
    sql`SELECT * FROM "PatientLink" WHERE "tokenHash" = ${tokenHash} AND "revokedAt" IS NULL AND "expiresAt" > ${now}`,
  )

export async function addLink(
  tx: Tx,
  link: StoredLink & { tokenHash: string; recordedAt: string; recordedBy: string },
): Promise<void> {
  await tx.patientLink.create({ data: link })
}

/** Revokes a patient's links, and with them their sessions. Says how many there were. */
export async function revokeLinksOf(
  tx: Tx,
  patientId: string,
  revokedAt: string,
  revokedBy: string,
): Promise<number> {
  const { count } = await tx.patientLink.updateMany({
    where: { patientId, revokedAt: null },
    data: { revokedAt, revokedBy },
  })
  return count
}

export async function addCheckInSession(
  tx: Tx,
  session: {
    id: string
    clinicId: string
    patientId: string
    linkId: string
    hash: string
    recordedAt: string
    expiresAt: string
  },
): Promise<void> {
  await tx.checkInSession.deleteMany({
    where: { linkId: session.linkId, expiresAt: { lte: session.recordedAt } },
  })
  await tx.checkInSession.create({ data: session })
}

const CheckInSession = z.object({ clinicId: z.string(), patientId: z.string() })
export type CheckInSession = z.infer<typeof CheckInSession>

/** Whose session a hash is, while both it and its link are in force. */
export const checkInSessionByHash = (tx: Tx, hash: string, now: string): Promise<CheckInSession | null> =>
  rowOf(
    tx,
    'check-in session',
    CheckInSession,
    sql`SELECT s."clinicId", s."patientId" FROM "CheckInSession" s JOIN "PatientLink" l ON l."id" = s."linkId"
        WHERE s."hash" = ${hash} AND s."expiresAt" > ${now} AND l."revokedAt" IS NULL AND l."expiresAt" > ${now}`,
  )
