import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
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
 * Of whom it is due to ask at an instant, the longest first: those enrolled before `enrolledBefore` (the first 30 days
 * are over) and those whose follow-up has ended, while no answer was given since.
 * @param days the length of the first time that is asked about
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
              AND NOT EXISTS (SELECT 1 FROM "InquiryAnswer" a WHERE a."patientId" = p."id" AND a."about" = '30-days')
          UNION ALL
          SELECT p.*, 'end' AS "about", p."followUpEndedAt" AS "since"
            FROM "Patient" p WHERE p."clinicId" = ${clinicId} AND p."followUpEndedAt" IS NOT NULL
              AND NOT EXISTS (SELECT 1 FROM "InquiryAnswer" a WHERE a."patientId" = p."id" AND a."about" = 'end'
                AND a."recordedAt" >= p."followUpEndedAt"))
        SELECT w."id", w."id" AS "patientId", w."name", w."birthDate", w."recordNumber", w."timeZone", w."enrolledAt",
          w."about", w."since",
          (SELECT COUNT(*) FROM "OutsideEvent" e WHERE e."patientId" = w."id" AND e."withdrawnAt" IS NULL
            AND (w."about" = 'end' OR e."at" <= w."since")) AS "known"
        FROM w WHERE ${patientId} IS NULL OR w."id" = ${patientId} ORDER BY w."since", w."name", w."id", w."about"`,
  )

const Answer = z.object({
  id: z.string(),
  patientId: z.string(),
  about: InquiryAbout,
  answer: InquiryAnswer,
  note: z.string().nullable(),
  recordedAt: Instant,
  recordedBy: z.string(),
})
export type Answer = z.infer<typeof Answer>

/** What was answered of a patient, in order: of one question the newest counts. */
export const answersOf = (tx: Tx, patientId: string): Promise<Rows<Answer>> =>
  rowsOf(
    tx,
    'inquiry answer',
    Answer,
    sql`SELECT * FROM "InquiryAnswer" WHERE "patientId" = ${patientId} ORDER BY "recordedAt", rowid`,
  )

const Count = z.object({ answer: InquiryAnswer, n: z.coerce.number() })

/** How the clinic's questions were answered, the newest answer of each. */
export const answerCounts = (tx: Tx, clinicId: string): Promise<Rows<z.infer<typeof Count>>> =>
  rowsOf(
    tx,
    'inquiry answer',
    Count,
    sql`SELECT a."answer", COUNT(*) AS "n" FROM "InquiryAnswer" a WHERE a."clinicId" = ${clinicId}
        AND NOT EXISTS (SELECT 1 FROM "InquiryAnswer" b WHERE b."patientId" = a."patientId" AND b."about" = a."about"
          AND (b."recordedAt" > a."recordedAt" OR (b."recordedAt" = a."recordedAt" AND b.rowid > a.rowid)))
        GROUP BY a."answer"`,
  )

export async function addAnswer(
  tx: Tx,
  answer: Pick<Answer, 'patientId' | 'about' | 'answer' | 'note' | 'recordedAt' | 'recordedBy'> & {
    clinicId: string
  },
): Promise<string> {
  const id = newId()
  await tx.inquiryAnswer.create({ data: { id, ...answer } })
  return id
}
