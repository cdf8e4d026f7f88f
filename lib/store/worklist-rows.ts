import { z } from 'zod'
import { EndReason } from '../domain/follow-up.ts'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import { RowDrain } from '../domain/worklist.ts'
import type { Tx } from './client.ts'
import { Bit, json, type Rows, rowsOf, sql, Unreadable } from './rows.ts'

/** What a worklist row shows of a patient besides flags and hold. */
export const RowPatient = z.object({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
  timeZone: TimeZone,
  drains: json(z.array(RowDrain)),
  lastHeardAt: Instant.nullable(),
  lastHeardFrom: z.string().nullable(),
  lookAgainAt: Instant.nullable(),
  lookAgainWhy: z.string().nullable(),
  followUpEnd: EndReason.nullable(),
  attempts: json(z.array(Instant)),
  onlyKidney: Bit,
})
export type RowPatient = z.infer<typeof RowPatient>

/**
 * The patients of a clinic who have a standing flag, a promised look-again that is due, or are in hospital. Of those whose follow-up
 * has ended, the ones of whom a word came since: a promise that says why.
 */
export const rowPatientsOf = (tx: Tx, clinicId: string, now: string): Promise<Rows<RowPatient>> =>
  rowsOf(
    tx,
    'patient',
    RowPatient,
    sql`SELECT p."id" AS "patientId", p."name", p."birthDate", p."recordNumber", p."phone", p."timeZone", s."drains",
          s."lastHeardAt", s."lastHeardFrom", s."lookAgainAt", s."lookAgainWhy", p."followUpEnd", s."attempts",
          CASE WHEN EXISTS (SELECT 1 FROM "Drain" d WHERE d."patientId" = p."id" AND d."onlyKidney") THEN TRUE ELSE FALSE END
            AS "onlyKidney"
        FROM (SELECT "patientId" FROM "Flag" WHERE "clinicId" = ${clinicId} AND "state" IN ('open', 'owed')
              UNION SELECT "patientId" FROM "PatientState" WHERE "clinicId" = ${clinicId} AND "lookAgainAt" <= ${now}
              UNION SELECT "patientId" FROM "Admission" WHERE "clinicId" = ${clinicId} AND "endedAt" IS NULL) w
        JOIN "PatientState" s ON s."patientId" = w."patientId"
        JOIN "Patient" p ON p."id" = w."patientId"
        WHERE p."followUpEndedAt" IS NULL OR (s."lookAgainWhy" IS NOT NULL AND s."lookAgainAt" <= ${now})`,
  )

const Counts = z.object({ patients: z.coerce.number(), notHeard: z.coerce.number() })

/** Patients in follow-up, and those of them not heard since an instant (nor enrolled since). */
export async function countsOf(tx: Tx, clinicId: string, since: string): Promise<z.infer<typeof Counts>> {
  const [counts] = await tx.$queryRaw<unknown[]>`
    SELECT (SELECT COUNT(*) FROM "Patient" WHERE "clinicId" = ${clinicId} AND "followUpEndedAt" IS NULL) AS "patients",
      (SELECT COUNT(*) FROM "PatientState" s JOIN "Patient" p ON p."id" = s."patientId"
       WHERE s."clinicId" = ${clinicId} AND (s."lastHeardAt" <= ${since} OR s."lastHeardAt" IS NULL)
         AND p."enrolledAt" <= ${since} AND p."followUpEndedAt" IS NULL) AS "notHeard"`
  return Counts.parse(counts)
}

const Troubled = z.object({ patientId: z.string(), lastError: z.string().nullable(), unreadable: z.string() })

/** What of a clinic's patients could not be read or assessed. */
export async function troublesOf(tx: Tx, clinicId: string): Promise<Unreadable[]> {
  const { rows } = await rowsOf(
    tx,
    'patient state',
    Troubled,
    sql`SELECT "patientId", "lastError", "unreadable" FROM "PatientState" WHERE "clinicId" = ${clinicId} AND "troubled"`,
  )
  return rows.flatMap(({ patientId, lastError, unreadable }) => {
    const parts = json(z.array(Unreadable)).safeParse(unreadable)
    return [
      ...(lastError ? [{ what: 'patient', id: patientId, why: `could not be assessed: ${lastError}` }] : []),
      ...(parts.success ? parts.data : [{ what: 'patient state', id: patientId, why: 'cannot be read' }]),
    ]
  })
}
