import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import { EndReason } from '../domain/follow-up.ts'
import { Profile } from '../domain/profile.ts'
import { Usual } from '../domain/record.ts'
import type { Tx } from './client.ts'
import { Bit, json, rowOf, sql } from './rows.ts'

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
