import type { Tx } from './client.ts'
import { sql } from './rows.ts'

/**
 * How many people called on each of some days: calls that count, neither taken back nor replaced by a correction.
 * Counted in the database, since a large clinic's calls of a quarter are more than a replay has memory for.
 * @param days from and until, as instants; `until` is not included
 */
export async function callersOn(
  tx: Tx,
  clinicId: string,
  days: readonly { from: string; until: string }[],
): Promise<number[]> {
  const rows = await tx.$queryRaw<{ callers: number | bigint }[]>(
    sql`SELECT (SELECT COUNT(DISTINCT c."recordedBy") FROM "Callback" c
          WHERE c."clinicId" = ${clinicId} AND c."undoneAt" IS NULL
            AND c."at" >= json_extract(d.value, '$.from') AND c."at" < json_extract(d.value, '$.until')
            AND NOT EXISTS (SELECT 1 FROM "Callback" k WHERE k."corrects" = c."id" AND k."undoneAt" IS NULL)) AS "callers"
        FROM json_each(${JSON.stringify(days)}) d ORDER BY d.key`,
  )
  return rows.map(({ callers }) => Number(callers))
}
