import { z } from 'zod'
import { Instant, TimeZone } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { rowOf, rowsOf, sql } from './rows.ts'

/** As many values in one question as any database takes. */
const AT_ONCE = 500

async function inPieces<T>(values: readonly string[], ask: (piece: string[]) => Promise<T[]>): Promise<T[]> {
  const all: T[] = []
  for (let from = 0; from < values.length; from += AT_ONCE)
    all.push(...(await ask(values.slice(from, from + AT_ONCE))))
  return all
}

const ImportPatient = z.object({ id: z.string(), recordNumber: z.string(), timeZone: TimeZone })
export type ImportPatient = z.infer<typeof ImportPatient>

/** The patients of a clinic that have one of these record numbers. */
export const patientsByNumbers = (
  tx: Tx,
  clinicId: string,
  numbers: readonly string[],
): Promise<ImportPatient[]> =>
  inPieces(numbers, async (piece) => {
    const query = sql`SELECT "id", "recordNumber", "timeZone" FROM "Patient"
      WHERE "clinicId" = ${clinicId} AND "recordNumber" IN (${Prisma.join(piece)})`
    return (await rowsOf(tx, 'patient', ImportPatient, query)).rows
  })

const ImportDrain = z.object({
  id: z.string(),
  patientId: z.string(),
  label: z.string(),
  placedAt: Instant,
})
export type ImportDrain = z.infer<typeof ImportDrain>

/** The drains of these patients, each patient's in the order of enrolment. */
export const drainsOfPatients = (tx: Tx, patientIds: readonly string[]): Promise<ImportDrain[]> =>
  inPieces(patientIds, async (piece) => {
    const query = sql`SELECT "id", "patientId", "label", "placedAt" FROM "Drain"
      WHERE "patientId" IN (${Prisma.join(piece)}) ORDER BY "patientId", "ordinal", "id"`
    return (await rowsOf(tx, 'drain', ImportDrain, query)).rows
  })

/** Those of these keys under which a source has sent a report already. */
export const knownKeys = (
  tx: Tx,
  clinicId: string,
  source: string,
  keys: readonly string[],
): Promise<string[]> =>
  inPieces(keys, async (piece) => {
    const rows = await tx.$queryRaw<{ key: string }[]>`SELECT "key" FROM "Report"
      WHERE "clinicId" = ${clinicId} AND "source" = ${source} AND "key" IN (${Prisma.join(piece)})`
    return rows.map(({ key }) => key)
  })

/** Those of these receipt numbers that a report has already. */
export const takenReceipts = (tx: Tx, codes: readonly string[]): Promise<string[]> =>
  inPieces(codes, async (piece) => {
    const rows = await tx.$queryRaw<{ code: string }[]>`SELECT "receiptCode" AS "code" FROM "Report"
      WHERE "receiptCode" IN (${Prisma.join(piece)})`
    return rows.map(({ code }) => code)
  })

const Taken = z.object({ id: z.string(), recordedAt: Instant })

/** When a file with this content was taken in, if it was. */
export async function fileTakenAt(tx: Tx, clinicId: string, fileHash: string): Promise<string | null> {
  const query = sql`SELECT "id", "recordedAt" FROM "ImportedFile"
    WHERE "clinicId" = ${clinicId} AND "fileHash" = ${fileHash}`
  return (await rowOf(tx, 'imported file', Taken, query))?.recordedAt ?? null
}

export async function addImportedFile(tx: Tx, file: Prisma.ImportedFileUncheckedCreateInput): Promise<void> {
  await tx.importedFile.create({ data: file })
}
