import { z } from 'zod'
import { FigureName } from '../domain/figures.ts'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

const Primary = z.object({ figure: FigureName, recordedAt: Instant, by: z.string(), why: z.string() })
export type Primary = z.infer<typeof Primary>

/** Which figures a clinic has named to judge itself by, the newest last; by whom. */
export const primariesOf = (tx: Tx, clinicId: string, now: string): Promise<Rows<Primary>> =>
  rowsOf(
    tx,
    'primary figure',
    Primary,
    sql`SELECT f."id", f."figure", f."recordedAt", f."why", COALESCE(s."name", f."recordedBy") AS "by" FROM "PrimaryFigure" f
        LEFT JOIN "Staff" s ON s."id" = f."recordedBy"
        WHERE f."clinicId" = ${clinicId} AND f."recordedAt" <= ${now} ORDER BY f."recordedAt", f."id"`,
  )

export async function addPrimary(tx: Tx, row: Prisma.PrimaryFigureUncheckedCreateInput): Promise<void> {
  await tx.primaryFigure.create({ data: row })
}
