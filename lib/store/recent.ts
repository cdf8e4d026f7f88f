import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import type { Span } from './report-parts.ts'
import { rowOf, sql, stored } from './rows.ts'

const Reached = z.object({
  patientId: z.string(),
  /** From this instant on. */
  at: Instant,
  /** How many came earlier, and when the earliest of them did that a later one corrects. */
  earlier: z.coerce.number(),
  corrected: Instant.nullable(),
})

/**
 * From when on a patient's reports are read, where the latest are enough, and how many of the span came earlier. It is
 * `from`, or further back: so far that at least `least` reports are among them, however long the patient has been
 * silent, and that no correction stands there without what it corrects.
 */
export async function recentOf(
  tx: Tx,
  span: Span,
  { from, least }: { from: string; least: number },
): Promise<{ from: string; earlier: number }> {
  const { at, earlier, corrected } = await reached(tx, span, from, least)
  if (corrected !== null) return recentOf(tx, span, { from: corrected, least })
  return { from: earlier > 0 ? before(at) : span.from, earlier }
}

/** The instant before one: what came at it came after that. */
const before = (instant: string) => stored(new Date(Date.parse(instant) - 1))

async function reached(tx: Tx, { patientId, from, until }: Span, wanted: string, least: number) {
  const ofSpan = sql`"patientId" = ${patientId} AND "receivedAt" > ${from} AND "receivedAt" <= ${until}
    AND ("movedAt" IS NULL OR "movedAt" > ${until})`
  const row = await rowOf(
    tx,
    'report',
    Reached,
    sql`WITH w("at") AS (SELECT min(${wanted}, coalesce((SELECT "receivedAt" FROM "Report" WHERE ${ofSpan}
            ORDER BY "receivedAt" DESC LIMIT 1 OFFSET ${least - 1}), ${from})))
        SELECT ${patientId} AS "patientId", w."at",
          (SELECT count(*) FROM "Report" WHERE ${ofSpan} AND "receivedAt" < w."at") AS "earlier",
          (SELECT min(o."receivedAt") FROM "Report" n JOIN "Report" o ON o."id" = n."supersedesId"
            WHERE n."patientId" = ${patientId} AND n."receivedAt" >= w."at" AND n."receivedAt" <= ${until}
              AND o."receivedAt" > ${from} AND o."receivedAt" < w."at") AS "corrected"
        FROM w`,
  )
  if (!row) throw new Error('store: a count gave no row')
  return row
}
