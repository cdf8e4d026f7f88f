import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import { DrainKind } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { newId, type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** Somebody who went home with a drain. `dischargedAt` is the day, by the clinic's calendar. */
export const StoredDischarge = z.object({
  id: z.string(),
  clinicId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  phone: z.string().nullable(),
  dischargedAt: LocalDate,
  drainKind: DrainKind.nullable(),
  note: z.string().nullable(),
  settledAt: Instant.nullable(),
  settledBy: z.string().nullable(),
  settledWhy: z.string().nullable(),
  patientId: z.string().nullable(),
})
export type StoredDischarge = z.infer<typeof StoredDischarge>

/** Those who wait: not settled, and not in follow-up under the same record number by whichever way. */
const waiting = (
  clinicId: string,
) => sql`d."clinicId" = ${clinicId} AND d."settledAt" IS NULL AND NOT EXISTS (
  SELECT 1 FROM "Patient" p WHERE p."clinicId" = d."clinicId" AND p."recordNumber" = d."recordNumber"
    AND p."followUpEndedAt" IS NULL)`

const Waiting = StoredDischarge.extend({
  /** The patient of this record number whose follow-up has ended, if there is one. */
  formerPatientId: z.string().nullable(),
})
export type Waiting = z.infer<typeof Waiting>

/** Whoever waits to be enrolled, the longest waiting first. */
export const waitingDischarges = (tx: Tx, clinicId: string): Promise<Rows<Waiting>> =>
  rowsOf(
    tx,
    'discharge',
    Waiting,
    sql`SELECT d.*, f."id" AS "formerPatientId" FROM "Discharge" d
        LEFT JOIN "Patient" f ON f."clinicId" = d."clinicId" AND f."recordNumber" = d."recordNumber"
        WHERE ${waiting(clinicId)} ORDER BY d."dischargedAt", d."name", d."id"`,
  )

export async function waitingCount(tx: Tx, clinicId: string): Promise<number> {
  const [row] = await tx.$queryRaw<{ n: number | bigint }[]>(
    sql`SELECT COUNT(*) AS "n" FROM "Discharge" d WHERE ${waiting(clinicId)}`,
  )
  return Number(row?.n ?? 0)
}

/** The latest that no longer wait. */
export const settledDischarges = (tx: Tx, clinicId: string, most: number): Promise<Rows<StoredDischarge>> =>
  rowsOf(
    tx,
    'discharge',
    StoredDischarge,
    sql`SELECT * FROM "Discharge" WHERE "clinicId" = ${clinicId} AND "settledAt" IS NOT NULL
        ORDER BY "settledAt" DESC, "id" LIMIT ${most}`,
  )

export const dischargeById = (tx: Tx, clinicId: string, id: string): Promise<StoredDischarge | null> =>
  rowOf(
    tx,
    'discharge',
    StoredDischarge,
    sql`SELECT * FROM "Discharge" WHERE "clinicId" = ${clinicId} AND "id" = ${id}`,
  )

/** The same person's entry of the same day, whether it waits or not: it is not put on the list again. */
export const isListed = async (
  tx: Tx,
  clinicId: string,
  recordNumber: string,
  dischargedAt: string,
): Promise<boolean> =>
  (await tx.discharge.findUnique({
    where: { clinicId_recordNumber_dischargedAt: { clinicId, recordNumber, dischargedAt } },
    select: { id: true },
  })) !== null

type Added = Omit<StoredDischarge, 'id'> & { recordedAt: string; recordedBy: string }

export async function addDischarge(tx: Tx, discharge: Added): Promise<string> {
  const id = newId()
  await tx.discharge.create({ data: { id, ...discharge } })
  return id
}

type Settling = {
  settledAt: string
  settledBy: string
  settledWhy: string | null
  patientId: string | null
}

/** Takes one off the list. Says whether it still waited. */
export async function settleDischarge(tx: Tx, id: string, settling: Settling): Promise<boolean> {
  const { count } = await tx.discharge.updateMany({ where: { id, settledAt: null }, data: settling })
  return count > 0
}

/** Takes whoever has a record number off the list: they are enrolled. */
export async function settleByRecordNumber(
  tx: Tx,
  clinicId: string,
  recordNumber: string,
  settling: Settling,
): Promise<void> {
  await tx.discharge.updateMany({ where: { clinicId, recordNumber, settledAt: null }, data: settling })
}
