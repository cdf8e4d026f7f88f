import { z } from 'zod'
import type { Tx } from './client.ts'
import { StoredLink } from './links.ts'
import { rowOf, sql } from './rows.ts'

/** Adds a session of a link; of the session's secret the store holds only the hash. */
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

const WithLink = z.object({ ...StoredLink.shape, sessionExpiresAt: z.string() })

/** The link whose session a hash is, while both it and its link are in force. */
export const linkOfSession = (
  tx: Tx,
  hash: string,
  now: string,
): Promise<(StoredLink & { sessionExpiresAt: string }) | null> =>
  rowOf(
    tx,
    'check-in session',
    WithLink,
    sql`SELECT l.*, s."expiresAt" AS "sessionExpiresAt"
        FROM "CheckInSession" s JOIN "PatientLink" l ON l."id" = s."linkId"
        WHERE s."hash" = ${hash} AND s."expiresAt" > ${now} AND l."revokedAt" IS NULL AND l."expiresAt" > ${now}`,
  )

/** Ends one session. Says whether there was one. */
export async function endSession(tx: Tx, hash: string): Promise<boolean> {
  const { count } = await tx.checkInSession.deleteMany({ where: { hash } })
  return count > 0
}
