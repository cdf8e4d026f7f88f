import { z } from 'zod'
import { Agreed, AttemptOutcome, Direction, SpokenTo } from '../domain/callback.ts'
import { Instant, LocalDate } from '../domain/instant.ts'
import { VisitKind } from '../domain/visit.ts'
import type { Tx } from './client.ts'
import { json, type Rows, rowsOf, sql } from './rows.ts'

const StandingCall = z.object({
  id: z.string(),
  patientId: z.string(),
  at: Instant,
  by: z.string(),
  direction: Direction,
  outcome: AttemptOutcome,
  spokenTo: SpokenTo.nullable(),
  agreed: json(z.array(Agreed)),
  lookAgainAt: Instant.nullable(),
  note: z.string(),
})
export type StandingCall = z.infer<typeof StandingCall>

/**
 * Calls to the patients of a clinic of whom something stands: those since the oldest flag that stands opened, or since
 * an instant, and of each patient the last that reached somebody. The latest first; without what was taken back.
 */
export const callsOfStanding = (
  tx: Tx,
  clinicId: string,
  from: string,
  now: string,
): Promise<Rows<StandingCall>> =>
  rowsOf(
    tx,
    'callback',
    StandingCall,
    sql`WITH w AS (
          SELECT "patientId", MIN("openedAt") AS "openedAt" FROM (
            SELECT "patientId", "openedAt" FROM "Flag" WHERE "clinicId" = ${clinicId} AND "state" IN ('open', 'owed')
            UNION ALL SELECT "patientId", ${from} FROM "PatientState" WHERE "clinicId" = ${clinicId} AND "lookAgainAt" <= ${now}
          ) w GROUP BY "patientId")
        SELECT c.*, COALESCE(s."name", c."recordedBy") AS "by" FROM w
        JOIN "Callback" c ON c."patientId" = w."patientId" LEFT JOIN "Staff" s ON s."id" = c."recordedBy"
        WHERE c."undoneAt" IS NULL
          AND NOT EXISTS (SELECT 1 FROM "Callback" k WHERE k."patientId" = c."patientId" AND k."corrects" = c."id" AND k."undoneAt" IS NULL)
          AND (c."at" >= w."openedAt" OR c."at" >= ${from} OR c."id" = (
            SELECT l."id" FROM "Callback" l WHERE l."patientId" = w."patientId" AND l."outcome" = 'reached' AND l."undoneAt" IS NULL
            ORDER BY l."at" DESC LIMIT 1))
        ORDER BY c."at" DESC, c."id"`,
  )

const Ahead = z.object({
  id: z.string(),
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
  at: Instant,
  what: z.union([z.literal('look-again'), VisitKind]),
})
export type Ahead = z.infer<typeof Ahead>

/** What comes due in a span of time among all patients in follow-up: promised looks and booked visits. The earliest first. */
export const aheadOf = (tx: Tx, clinicId: string, from: string, until: string): Promise<Rows<Ahead>> =>
  rowsOf(
    tx,
    'due',
    Ahead,
    sql`SELECT w."id", w."patientId", w."at", w."what", p."name", p."birthDate", p."recordNumber", p."phone" FROM (
          SELECT "id", "patientId", "lookAgainAt" AS "at", 'look-again' AS "what" FROM "Flag"
            WHERE "clinicId" = ${clinicId} AND "lookAgainAt" > ${from} AND "lookAgainAt" <= ${until} AND "state" = 'closed'
          UNION ALL SELECT "patientId", "patientId", "lookAgainAt", 'look-again' FROM "PatientState"
            WHERE "clinicId" = ${clinicId} AND "lookAgainAt" > ${from} AND "lookAgainAt" <= ${until}
          UNION ALL SELECT "id", "patientId", "bookedFor", "kind" FROM "Visit"
            WHERE "clinicId" = ${clinicId} AND "state" = 'booked' AND "bookedFor" > ${from} AND "bookedFor" <= ${until}
        ) w JOIN "Patient" p ON p."id" = w."patientId" WHERE p."followUpEndedAt" IS NULL ORDER BY w."at", w."patientId"`,
  )
