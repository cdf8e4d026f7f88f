import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

const Hour = z.object({
  from: Instant,
  opened: z.coerce.number(),
  attempts: z.coerce.number(),
  reached: z.coerce.number(),
})
export type Hour = z.infer<typeof Hour>

/** A call that counts: neither taken back nor replaced by its correction. */
const counts = sql`c."undoneAt" IS NULL AND NOT EXISTS (
    SELECT 1 FROM "Callback" k WHERE k."patientId" = c."patientId" AND k."corrects" = c."id" AND k."undoneAt" IS NULL)`

/** Per span of time: patients of whom a clinical flag opened, attempts to call, and those that reached somebody. */
export const numbersPer = (
  tx: Tx,
  clinicId: string,
  spans: readonly { from: string; until: string }[],
): Promise<Rows<Hour>> =>
  rowsOf(
    tx,
    'hour',
    Hour,
    sql`WITH w("from", "until") AS (VALUES ${Prisma.join(spans.map(({ from, until }) => sql`(${from}, ${until})`))})
        SELECT w."from",
          (SELECT COUNT(DISTINCT f."patientId") FROM "Flag" f WHERE f."clinicId" = ${clinicId} AND f."nature" = 'clinical'
             AND f."openedAt" >= w."from" AND f."openedAt" < w."until") AS "opened",
          (SELECT COUNT(*) FROM "Callback" c WHERE c."clinicId" = ${clinicId} AND c."at" >= w."from" AND c."at" < w."until"
             AND ${counts}) AS "attempts",
          (SELECT COUNT(*) FROM "Callback" c WHERE c."clinicId" = ${clinicId} AND c."at" >= w."from" AND c."at" < w."until"
             AND c."outcome" = 'reached' AND ${counts}) AS "reached"
        FROM w ORDER BY w."from"`,
  )

const Wait = z.object({
  rank: z.coerce.number(),
  openedAt: Instant,
  triedAt: Instant.nullable(),
})
export type Wait = z.infer<typeof Wait>

/**
 * Openings of clinical flags in a span of time, each with the first attempt to call that patient since. What opened of
 * one patient at one moment counts once, by its most urgent flag (`rank`).
 */
export const waitsOf = (tx: Tx, clinicId: string, from: string, until: string): Promise<Rows<Wait>> =>
  rowsOf(
    tx,
    'opening',
    Wait,
    sql`SELECT f."openedAt", MAX(CASE f."urgency" WHEN 'at-once' THEN 4 WHEN 'within-1h' THEN 3 WHEN 'within-24h' THEN 2 ELSE 1 END) AS "rank",
          (SELECT MIN(c."at") FROM "Callback" c WHERE c."patientId" = f."patientId" AND c."at" >= f."openedAt" AND c."at" < ${until}
             AND ${counts}) AS "triedAt"
        FROM "Flag" f WHERE f."clinicId" = ${clinicId} AND f."openedAt" >= ${from} AND f."openedAt" < ${until} AND f."nature" = 'clinical'
        GROUP BY f."patientId", f."openedAt"`,
  )
