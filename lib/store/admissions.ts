import { z } from 'zod'
import type { Discharged, StandingAdmission } from '../domain/admission.ts'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import type { Recorded } from './drains.ts'
import { newId, type Rows, rowOf, rowsOf, sql } from './rows.ts'

const KeptAdmission = z.object({
  id: z.string(),
  patientId: z.string(),
  at: Instant,
  place: z.string().nullable(),
})
export type KeptAdmission = z.infer<typeof KeptAdmission>

/** The stay in hospital that stands for a patient; null where none does. */
export const admissionOf = (tx: Tx, patientId: string): Promise<KeptAdmission | null> =>
  rowOf(
    tx,
    'admission',
    KeptAdmission,
    sql`SELECT "id", "patientId", "at", "place" FROM "Admission"
        WHERE "patientId" = ${patientId} AND "endedAt" IS NULL ORDER BY "recordedAt" DESC LIMIT 1`,
  )

/** Whether a patient is in hospital by the record: then nothing is due, and nobody is called or reminded. */
export async function isAdmitted(tx: Tx, patientId: string): Promise<boolean> {
  const found = await tx.$queryRaw<unknown[]>`SELECT 1 FROM "Admission"
    WHERE "patientId" = ${patientId} AND "endedAt" IS NULL LIMIT 1`
  return found.length > 0
}

/** Every stay of a clinic's patients that stands. */
export const standingAdmissions = (tx: Tx, clinicId: string): Promise<Rows<KeptAdmission>> =>
  rowsOf(
    tx,
    'admission',
    KeptAdmission,
    sql`SELECT "id", "patientId", "at", "place" FROM "Admission" WHERE "clinicId" = ${clinicId} AND "endedAt" IS NULL`,
  )

/** As screens show it. */
export const shownAdmission = (kept: KeptAdmission | null | undefined): StandingAdmission | null =>
  kept ? { since: kept.at, place: kept.place } : null

export async function addAdmission(
  tx: Tx,
  { at, place }: { at: string; place: string | null },
  recorded: Recorded,
): Promise<void> {
  await tx.admission.create({ data: { id: newId(), at, place, ...recorded } })
}

/** Ends a stay; what was confirmed of each drain is kept with it. */
export async function endAdmission(
  tx: Tx,
  id: string,
  end: { at: string; by: string; confirmed: Discharged['drains'] },
): Promise<void> {
  await tx.admission.update({
    where: { id },
    data: { endedAt: end.at, endedBy: end.by, confirmed: JSON.stringify(end.confirmed) },
  })
}
