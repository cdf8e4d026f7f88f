import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { Advice, Receipt, Reporter } from '../domain/submission.ts'
import type { Tx } from './client.ts'
import type { Span } from './report-parts.ts'
import { json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** The way a report came in. */
export const Door = z.enum(['check-in', 'phone-in', 'system', 'import'])
export type Door = z.infer<typeof Door>

export const StoredReport = z.object({
  id: z.string(),
  receivedAt: Instant,
  supersedesId: z.string().nullable(),
  door: Door,
  reporter: Reporter,
  /** The name on the helper's link that it came by, and that link or the patient's. */
  sentBy: z.string().nullable(),
  linkId: z.string().nullable(),
  enteredBy: z.string().nullable(),
  note: z.string().nullable(),
})
export type StoredReport = z.infer<typeof StoredReport>

/**
 * A patient's reports without their parts, the earliest first. One that was moved to another patient is still here at
 * an instant before it was moved, and no longer from then on.
 */
export const reportsOf = (tx: Tx, { patientId, from, until }: Span): Promise<Rows<StoredReport>> =>
  rowsOf(
    tx,
    'report',
    StoredReport,
    sql`SELECT "id", "receivedAt", "supersedesId", "door", "reporter", "sentBy", "linkId", "enteredBy", "note"
        FROM "Report" WHERE "patientId" = ${patientId} AND "receivedAt" > ${from} AND "receivedAt" <= ${until}
          AND ("movedAt" IS NULL OR "movedAt" > ${until})
        ORDER BY "receivedAt", "id"`,
  )

/** A receipt as it was answered; those of before texts had names and versions carry the standard one's. */
const StoredReceipt = Receipt.extend({
  advice: z.array(
    z.preprocess(
      (advice) => ({ name: 'clinic-first', version: 'standard', read: true, ...(advice as object) }),
      Advice,
    ),
  ),
})
const Earlier = z.object({ bodyHash: z.string(), receipt: json(StoredReceipt) })

/** The report that a source sent under a key, if it did. */
export const reportByKey = (tx: Tx, clinicId: string, source: string, key: string) =>
  rowOf(
    tx,
    'report',
    Earlier,
    sql`SELECT "bodyHash", "receipt" FROM "Report"
        WHERE "clinicId" = ${clinicId} AND "source" = ${source} AND "key" = ${key}`,
  )

/** The id of the report that a source sent under a key, if it did and for this patient. */
export async function idOfKey(
  tx: Tx,
  { clinicId, source, key }: { clinicId: string; source: string; key: string },
  patientId: string,
): Promise<string | null> {
  const found = await tx.report.findUnique({
    where: { clinicId_source_key: { clinicId, source, key } },
    select: { id: true, patientId: true },
  })
  return found?.patientId === patientId ? found.id : null
}

/** Whether a patient has a report of this id, which was not moved to another. */
export async function isReportOf(tx: Tx, patientId: string, id: string): Promise<boolean> {
  const found = await tx.report.findUnique({ where: { id }, select: { patientId: true, movedAt: true } })
  return found?.patientId === patientId && found.movedAt === null
}

export async function isReceiptCode(tx: Tx, code: string): Promise<boolean> {
  const found = await tx.$queryRaw<unknown[]>`SELECT 1 FROM "Report" WHERE "receiptCode" = ${code}`
  return found.length > 0
}
