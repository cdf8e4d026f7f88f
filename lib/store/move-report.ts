import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { MovedReport } from '../domain/move-report.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

export type Move = { at: string; by: string; why: string; to: string }

/**
 * Marks reports as moved: they stay where they were filed, and the record leaves them out from that moment on. Nothing
 * else of a report ever changes; one that was moved already is left as it is. Gives how many were marked.
 */
export const markMoved = (tx: Tx, ids: readonly string[], { at, by, why, to }: Move): Promise<number> =>
  tx.$executeRaw`UPDATE "Report" SET "movedAt" = ${at}, "movedBy" = ${by}, "movedWhy" = ${why}, "movedToId" = ${to}
    WHERE "id" IN (${Prisma.join([...ids])}) AND "movedAt" IS NULL`

const Filed = z.object({
  id: z.string(),
  clinicId: z.string(),
  patientId: z.string(),
  movedAt: Instant.nullable(),
})

/** Whose report it is, and whether it was moved; null where there is none. */
export async function filedReport(tx: Tx, id: string): Promise<z.infer<typeof Filed> | null> {
  const found = await tx.report.findUnique({
    where: { id },
    select: { id: true, clinicId: true, patientId: true, movedAt: true },
  })
  return found ? Filed.parse(found) : null
}

const Moved = z.object({
  id: z.string(),
  direction: z.enum(['to', 'from']),
  receivedAt: Instant,
  at: Instant,
  by: z.string(),
  why: z.string(),
  patientId: z.string(),
  name: z.string(),
  recordNumber: z.string(),
})

/** The reports that were moved from a patient or to one, with the other patient, the latest first. */
export async function movedReportsOf(tx: Tx, patientId: string, until: string): Promise<Rows<MovedReport>> {
  const found = await rowsOf(
    tx,
    'moved report',
    Moved,
    sql`SELECT r."id" AS "id", 'to' AS "direction", r."receivedAt", r."movedAt" AS "at", r."movedBy" AS "by",
          r."movedWhy" AS "why", p."id" AS "patientId", p."name", p."recordNumber"
        FROM "Report" r JOIN "Report" o ON o."id" = r."movedToId" JOIN "Patient" p ON p."id" = o."patientId"
        WHERE r."patientId" = ${patientId} AND r."movedAt" <= ${until}
        UNION ALL
        SELECT r."id" AS "id", 'from', o."receivedAt", o."movedAt", o."movedBy", o."movedWhy", p."id", p."name", p."recordNumber"
        FROM "Report" r JOIN "Report" o ON o."id" = r."movedFromId" JOIN "Patient" p ON p."id" = o."patientId"
        WHERE r."patientId" = ${patientId} AND o."movedAt" <= ${until}
        ORDER BY "at" DESC, "id"`,
  )
  const rows = found.rows.map(
    ({ id, direction, receivedAt, at, by, why, ...other }): MovedReport => ({
      report: id,
      direction,
      receivedAt,
      at,
      by,
      why,
      other,
    }),
  )
  return { rows, unreadable: found.unreadable }
}
