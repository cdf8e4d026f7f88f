import { z } from 'zod'
import type { Span } from './audit-facts.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { type Rows, rowsOf, sql } from './rows.ts'

const HeardDays = z.object({
  patientId: z.string(),
  /** One text a week, `number of the span:days`, with commas between. */
  days: z.string(),
})
export type HeardDays = z.infer<typeof HeardDays>

/** A stretch of time in which the clinic's clock keeps one distance from UTC. */
export type Offset = { until: string; seconds: number }

/**
 * Of each patient on how many of the clinic's local days anything was received, by week of seven days from the span's first day.
 * One row a patient: a panel's reports of two months are hundreds of thousands.
 *
 * @param offsets the stretches, in order, that cover the span.
 */
export const daysHeard = (
  tx: Tx,
  { clinicId, from, until, now }: Span,
  firstDay: string,
  offsets: readonly Offset[],
): Promise<Rows<HeardDays>> => {
  const last = offsets.at(-1)?.seconds ?? 0
  const shifts = offsets
    .slice(0, -1)
    .map(({ until: end, seconds }) => sql`WHEN r."receivedAt" < ${end} THEN ${`${seconds} seconds`}`)
  const seconds =
    shifts.length > 0
      ? sql`CASE ${Prisma.join(shifts, ' ')} ELSE ${`${last} seconds`} END`
      : sql`${`${last} seconds`}`
  return rowsOf(
    tx,
    'report',
    HeardDays,
    sql`SELECT w."patientId", GROUP_CONCAT(w."week" || ':' || w."days") AS "days" FROM (
          SELECT d."patientId", CAST((julianday(d."day") - julianday(${firstDay})) / 7 AS INTEGER) AS "week", COUNT(*) AS "days" FROM (
            SELECT DISTINCT r."patientId", date(r."receivedAt", ${seconds}) AS "day"
            FROM "Patient" p JOIN "Report" r ON r."patientId" = p."id"
            WHERE p."clinicId" = ${clinicId} AND r."receivedAt" >= ${from} AND r."receivedAt" < ${until} AND r."receivedAt" <= ${now}
              AND r."movedAt" IS NULL) d
          GROUP BY d."patientId", "week") w GROUP BY w."patientId"`,
  )
}
