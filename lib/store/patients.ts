import { z } from 'zod'
import { AlikePatient } from '../domain/alike.ts'
import { EndReason } from '../domain/follow-up.ts'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import type { PersonDetails } from '../domain/person.ts'
import { Profile } from '../domain/profile.ts'
import { Usual } from '../domain/record.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { Bit, json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

export const Patient = z.object({
  id: z.string(),
  clinicId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
  timeZone: TimeZone,
  language: z.string().nullable(),
  interpreter: Bit,
  enrolledAt: Instant,
  usual: json(Usual).nullable(),
  profile: json(Profile).nullable(),
  followUpEndedAt: Instant.nullable(),
  followUpEnd: EndReason.nullable(),
})
export type Patient = z.infer<typeof Patient>

export const patientById = (tx: Tx, id: string): Promise<Patient | null> =>
  rowOf(tx, 'patient', Patient, sql`SELECT * FROM "Patient" WHERE "id" = ${id}`)

/** By the number of the chart, which is unique within a clinic. */
export const patientByRecordNumber = (
  tx: Tx,
  clinicId: string,
  recordNumber: string,
): Promise<Patient | null> =>
  rowOf(
    tx,
    'patient',
    Patient,
    sql`SELECT * FROM "Patient" WHERE "clinicId" = ${clinicId} AND "recordNumber" = ${recordNumber}`,
  )

export async function addPatient(
  tx: Tx,
  patient: Patient,
  recordedAt: string,
  recordedBy: string,
): Promise<void> {
  const usual = patient.usual ? JSON.stringify(patient.usual) : null
  const profile = patient.profile ? JSON.stringify(patient.profile) : null
  await tx.patient.create({ data: { ...patient, usual, profile, recordedAt, recordedBy } })
}

/** Patients of a clinic who were born on one of some days, whether or not they are still in follow-up. */
export const patientsBornOn = (
  tx: Tx,
  clinicId: string,
  dates: readonly string[],
): Promise<Rows<AlikePatient>> =>
  rowsOf(
    tx,
    'patient',
    AlikePatient,
    sql`SELECT "id" AS "patientId", "name", "birthDate", "recordNumber", "followUpEndedAt" FROM "Patient"
        WHERE "clinicId" = ${clinicId} AND "birthDate" IN (${Prisma.join(dates)}) ORDER BY "name", "id"`,
  )

/** Writes a person's details as they are from now on; the version that holds them is the caller's to add. */
export async function saveDetails(tx: Tx, patientId: string, details: PersonDetails): Promise<void> {
  const { usual, profile, ...plain } = details
  await tx.patient.update({
    where: { id: patientId },
    data: {
      ...plain,
      usual: usual ? JSON.stringify(usual) : null,
      profile: profile ? JSON.stringify(profile) : null,
    },
  })
}
