import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import { INQUIRY_DAYS } from '../domain/outcomes-page.ts'
import { InquiryAbout, InquiryAnswer } from '../domain/outside-event.ts'
import type { Tx } from './client.ts'
import { newId, type Rows, rowsOf, sql } from './rows.ts'

const Due = z.object({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  timeZone: TimeZone,
  enrolledAt: Instant,
  about: InquiryAbout,
  since: Instant,
  known: z.coerce.number(),
})
export type Due = z.infer<typeof Due>

/**
 * Whether an answer `a` still stands: one that tells of events does for as long as one of its time is on record. Once
 * the last of them is withdrawn the answer before it counts, or none.
 */
export const answerStands = sql`(a."answer" <> 'events' OR EXISTS (
  SELECT 1 FROM "OutsideEvent" o JOIN "Patient" q ON q."id" = o."patientId"
  WHERE o."patientId" = a."patientId" AND o."withdrawnAt" IS NULL AND (a."about" = 'end'
    OR o."at" <= strftime('%Y-%m-%dT%H:%M:%fZ', q."enrolledAt", ${`+${INQUIRY_DAYS} days`}))))`

/**
 * Of whom it is due to ask at an instant, the longest first: those enrolled before `enrolledBefore` (the first 30 days
 * are over) and those whose follow-up has ended, while no answer was given since that still stands.
 * @param patientId only of this one
 */
export const dueInquiries = (
  tx: Tx,
  clinicId: string,
  enrolledBefore: string,
  days: number,
  patientId: string | null = null,
): Promise<Rows<Due>> =>
  rowsOf(
    tx,
    'patient',
    Due,
    sql`WITH w AS (
          SELECT p.*, '30-days' AS "about", strftime('%Y-%m-%dT%H:%M:%fZ', p."enrolledAt", ${`+${days} days`}) AS "since"
            FROM "Patient" p WHERE p."clinicId" = ${clinicId} AND p."enrolledAt" <= ${enrolledBefore}
              AND NOT EXISTS (SELECT 1 FROM "InquiryAnswer" a WHERE a."patientId" = p."id" AND a."about" = '30-days'
                AND ${answerStands})
          UNION ALL
          SELECT p.*, 'end' AS "about", p."followUpEndedAt" AS "since"
            FROM "Patient" p WHERE p."clinicId" = ${clinicId} AND p."followUpEndedAt" IS NOT NULL
              AND NOT EXISTS (SELECT 1 FROM "InquiryAnswer" a WHERE a."patientId" = p."id" AND a."about" = 'end'
                AND a."recordedAt" >= p."followUpEndedAt" AND ${answerStands}))
        SELECT w."id", w."id" AS "patientId", w."name", w."birthDate", w."recordNumber", w."timeZone", w."enrolledAt",
          w."about", w."since",
          (SELECT COUNT(*) FROM "OutsideEvent" e WHERE e."patientId" = w."id" AND e."withdrawnAt" IS NULL
            AND (w."about" = 'end' OR e."at" <= w."since")) AS "known"
        FROM w WHERE ${patientId} IS NULL OR w."id" = ${patientId} ORDER BY w."since", w."name", w."id", w."about"`,
  )

const Count = z.object({ answer: InquiryAnswer, n: z.coerce.number() })

/** How the clinic's questions were answered, the newest answer of each that still stands. */
export const answerCounts = (tx: Tx, clinicId: string): Promise<Rows<z.infer<typeof Count>>> =>
  rowsOf(
    tx,
    'inquiry answer',
    Count,
    sql`WITH s AS (SELECT a.*, a.rowid AS "row" FROM "InquiryAnswer" a WHERE a."clinicId" = ${clinicId} AND ${answerStands})
        SELECT s."answer", COUNT(*) AS "n" FROM s
        WHERE NOT EXISTS (SELECT 1 FROM s b WHERE b."patientId" = s."patientId" AND b."about" = s."about"
          AND (b."recordedAt" > s."recordedAt" OR (b."recordedAt" = s."recordedAt" AND b."row" > s."row")))
        GROUP BY s."answer"`,
  )

type NewAnswer = {
  clinicId: string
  patientId: string
  about: InquiryAbout
  answer: InquiryAnswer
  note: string | null
  recordedAt: string
  recordedBy: string
}

/** @returns its id. Nothing is overwritten: of one question the newest answer counts. */
export async function addAnswer(tx: Tx, answer: NewAnswer): Promise<string> {
  const id = newId()
  await tx.inquiryAnswer.create({ data: { id, ...answer } })
  return id
}
