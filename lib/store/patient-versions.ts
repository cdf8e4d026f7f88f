import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { PersonDetails } from '../domain/person.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { json, newId, type Rows, rowsOf, sql } from './rows.ts'

/** How a person's details stood from one change to the next. */
export const PatientVersion = z.object({
  version: z.number(),
  recordedAt: Instant,
  recordedBy: z.string(),
  why: z.string(),
  body: json(PersonDetails),
})
export type PatientVersion = z.infer<typeof PatientVersion>

/** All versions of a patient's details, the first one first. */
export const patientVersionsOf = (tx: Tx, patientId: string): Promise<Rows<PatientVersion>> =>
  rowsOf(
    tx,
    'version of details',
    PatientVersion,
    sql`SELECT * FROM "PatientVersion" WHERE "patientId" = ${patientId} ORDER BY "version"`,
  )

/** Adds the next version and says its number. A version is never changed. */
export async function addPatientVersion(
  tx: Tx,
  details: PersonDetails,
  why: string,
  recorded: Recorded,
): Promise<number> {
  const newest = await tx.patientVersion.aggregate({
    where: { patientId: recorded.patientId },
    _max: { version: true },
  })
  const version = (newest._max.version ?? 0) + 1
  await tx.patientVersion.create({
    data: { id: newId(), version, why, body: JSON.stringify(details), ...recorded },
  })
  return version
}
