import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { FindingCode, Urgency } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

/** A standing flag that cannot wait for the morning. */
const PressingFlag = z.object({
  id: z.string(),
  patientId: z.string(),
  code: FindingCode,
  urgency: Urgency.extract(['at-once', 'within-1h']),
  actBy: Instant,
  spokenAt: Instant.nullable(),
})
export type PressingFlag = z.infer<typeof PressingFlag>

const isPressing = sql`f."state" IN ('open', 'owed') AND f."urgency" IN ('at-once', 'within-1h')`

/** Those of the patient of an escalation, the soonest first. */
export const pressingFlagsFor = (tx: Tx, escalationId: string): Promise<Rows<PressingFlag>> =>
  rowsOf(
    tx,
    'flag',
    PressingFlag,
    sql`SELECT f.* FROM "Escalation" e JOIN "Flag" f ON f."patientId" = e."patientId"
        WHERE e."id" = ${escalationId} AND ${isPressing} ORDER BY f."actBy", f."id"`,
  )

/**
 * Those of a clinic that nobody is at work on: not spoken about, the row not taken, the patient in follow-up and not
 * in hospital, and no escalation standing. The soonest first.
 * @param takenAt the instant at which a taken row counts as one that somebody is at work on; null: none does
 */
export const untoldFlags = (tx: Tx, clinicId: string, takenAt: string | null): Promise<Rows<PressingFlag>> =>
  rowsOf(
    tx,
    'flag',
    PressingFlag,
    sql`SELECT f.* FROM "Flag" f JOIN "Patient" p ON p."id" = f."patientId"
        WHERE f."clinicId" = ${clinicId} AND ${isPressing} AND f."spokenAt" IS NULL
          AND (p."followUpEndedAt" IS NULL OR (f."nature" = 'clinical' AND f."changedAt" >= p."followUpEndedAt"))
          AND NOT EXISTS (SELECT 1 FROM "Escalation" e WHERE e."patientId" = f."patientId" AND e."endedAt" IS NULL)
          AND NOT EXISTS (SELECT 1 FROM "Hold" h WHERE h."patientId" = f."patientId" AND h."until" > ${takenAt})
          AND NOT EXISTS (SELECT 1 FROM "Admission" a WHERE a."patientId" = f."patientId" AND a."endedAt" IS NULL)
        ORDER BY f."actBy", f."id"`,
  )

/** Whether the patient of an escalation was admitted to hospital since an instant, and is there still. */
export async function isAdmittedSince(tx: Tx, escalationId: string, since: string): Promise<boolean> {
  const found = await tx.$queryRaw<unknown[]>(
    sql`SELECT a."id" FROM "Escalation" e JOIN "Admission" a ON a."patientId" = e."patientId"
        WHERE e."id" = ${escalationId} AND a."endedAt" IS NULL AND a."recordedAt" >= ${since} LIMIT 1`,
  )
  return found.length > 0
}
