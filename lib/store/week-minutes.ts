import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import { FindingCode } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

/** Signed minutes as they are kept. `body` stays a text: its hash is of what it says. */
export const StoredMinutes = z.object({
  id: z.string(),
  clinicId: z.string(),
  week: LocalDate,
  body: z.string(),
  hash: z.string(),
  amends: z.string().nullable(),
  why: z.string().nullable(),
  recordedAt: Instant,
  recordedBy: z.string(),
})
export type StoredMinutes = z.infer<typeof StoredMinutes>

/** The minutes of a week and their amendments, in the order in which they were signed. */
export const minutesOf = (tx: Tx, clinicId: string, week: string): Promise<Rows<StoredMinutes>> =>
  rowsOf(
    tx,
    'minutes',
    StoredMinutes,
    sql`SELECT * FROM "WeekMinutes" WHERE "clinicId" = ${clinicId} AND "week" = ${week} ORDER BY rowid`,
  )

export async function addMinutes(tx: Tx, minutes: StoredMinutes): Promise<void> {
  await tx.weekMinutes.create({ data: minutes })
}

/** What the items of a week that are flags were flagged for, by item. */
export async function codesOfWeek(tx: Tx, clinicId: string, week: string): Promise<Map<string, FindingCode>> {
  const { rows } = await rowsOf(
    tx,
    'review item',
    z.object({ id: z.string(), code: FindingCode }),
    sql`SELECT i."id", f."code" FROM "ReviewItem" i JOIN "Flag" f ON f."id" = i."flagId"
        WHERE i."clinicId" = ${clinicId} AND i."week" = ${week}`,
  )
  return new Map(rows.map(({ id, code }) => [id, code]))
}
