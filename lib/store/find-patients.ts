import { FoundPatient } from '../domain/found-patient.ts'
import type { Tx } from './client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

const literal = (word: string) => `%${word.replace(/[\\%_]/g, (one) => `\\${one}`)}%`

/** Patients whose name or record number holds a word, those in follow-up first, then by name. Letters beyond ASCII are found as they are written. */
export const patientsWith = (
  tx: Tx,
  clinicId: string,
  word: string,
  most: number,
): Promise<Rows<FoundPatient>> =>
  rowsOf(
    tx,
    'patient',
    FoundPatient,
    sql`SELECT p."id" AS "patientId", p."name", p."birthDate", p."recordNumber", s."lastHeardAt", p."followUpEnd"
        FROM "Patient" p LEFT JOIN "PatientState" s ON s."patientId" = p."id"
        WHERE p."clinicId" = ${clinicId}
          AND (p."name" LIKE ${literal(word)} ESCAPE '\\' OR LOWER(p."name") LIKE ${literal(word.toLowerCase())} ESCAPE '\\'
            OR LOWER(p."recordNumber") LIKE ${literal(word.toLowerCase())} ESCAPE '\\')
        ORDER BY CASE WHEN p."followUpEndedAt" IS NULL THEN 0 ELSE 1 END, p."name", p."id" LIMIT ${most}`,
  )
