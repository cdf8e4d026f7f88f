import { z } from 'zod'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { type Rows, rowsOf, sql, stored } from './rows.ts'

const DueLetter = z.object({
  id: z.string(),
  patientId: z.string().nullable(),
  kind: z.string(),
  body: z.string(),
  recordedAt: z.string(),
  attempts: z.coerce.number(),
})
export type DueLetter = z.infer<typeof DueLetter>

/** Which kinds of letter are meant: those named, or all but those named. */
export type Kinds = { only: readonly string[] } | { but: readonly string[] }

/** Letters of some kinds that are neither sent nor given up and whose time has come, the oldest first. */
export const dueLetters = (tx: Tx, kinds: Kinds, now: Date, most: number): Promise<Rows<DueLetter>> =>
  rowsOf(
    tx,
    'letter',
    DueLetter,
    sql`SELECT "id", "patientId", "kind", "body", "recordedAt", "attempts" FROM "Outbox"
        WHERE "sentAt" IS NULL AND "givenUpAt" IS NULL AND "notBefore" <= ${stored(now)} AND ${isOf(kinds)}
        ORDER BY "notBefore", "id" LIMIT ${most}`,
  )

const isOf = (kinds: Kinds) =>
  'only' in kinds ? sql`"kind" IN (${list(kinds.only)})` : sql`"kind" NOT IN (${list(kinds.but)})`
const list = (kinds: readonly string[]) => Prisma.join([...kinds])

/** Notes that a letter is sent, and takes its contents out of the store: a link to set a password is a secret. */
export async function letterSent(tx: Tx, id: string, now: Date): Promise<void> {
  await tx.outbox.update({
    where: { id },
    data: { sentAt: stored(now), body: '{}', lastError: null, attempts: { increment: 1 } },
  })
}

/** Notes that a letter did not go out, and why: when to try again, or (`again` null) that it was given up. */
export async function letterFailed(
  tx: Tx,
  id: string,
  now: Date,
  again: Date | null,
  why: string,
): Promise<void> {
  const next = again ? { notBefore: stored(again) } : { givenUpAt: stored(now), body: '{}' }
  await tx.outbox.update({
    where: { id },
    data: { ...next, attempts: { increment: 1 }, lastError: why.slice(0, 500) },
  })
}

/** Puts a letter off: it was not tried, so that this counts as no attempt. */
export async function letterPutOff(tx: Tx, id: string, until: Date): Promise<void> {
  await tx.outbox.update({ where: { id }, data: { notBefore: stored(until) } })
}

/** How many letters wait, and how many were given up, by the reason. */
export async function outboxCounts(
  tx: Tx,
): Promise<{ waiting: number; givenUp: { why: string; letters: number }[] }> {
  const waiting = await tx.outbox.count({ where: { sentAt: null, givenUpAt: null } })
  const groups = await tx.outbox.groupBy({
    by: ['lastError'],
    where: { givenUpAt: { not: null } },
    _count: true,
  })
  return {
    waiting,
    givenUp: groups.map(({ lastError, _count }) => ({ why: lastError ?? 'unknown', letters: _count })),
  }
}

const Stuck = z.object({ at: z.string().nullable() })
/** So many letters that fail, and none sent since, are no longer one wrong address. */
const MANY = 3

/**
 * When the oldest letter was written of those that say that letters do not go out; null where none says so: one that
 * was never tried since before `since`, one that cannot wait and has failed since, or several others that fail while
 * none is sent. What was put off to a later hour does not wait, and one wrong address is no fault of ours.
 */
export async function oldestStuck(tx: Tx, since: Date, pressing: readonly string[]): Promise<string | null> {
  const before = stored(since)
  const waits = sql`"sentAt" IS NULL AND "givenUpAt" IS NULL`
  const oldest = async (query: ReturnType<typeof sql>) =>
    Stuck.parse((await tx.$queryRaw<unknown[]>(query))[0]).at
  const stuck = await oldest(
    sql`SELECT MIN("recordedAt") AS "at" FROM "Outbox" WHERE ${waits} AND (("attempts" = 0 AND "notBefore" <= ${before})
        OR ("attempts" > 0 AND "recordedAt" <= ${before} AND "kind" IN (${list(pressing)})))`,
  )
  if (stuck !== null) return stuck
  return oldest(
    sql`SELECT CASE WHEN w."many" >= ${MANY} AND NOT EXISTS (SELECT 1 FROM "Outbox" s WHERE s."sentAt" >= w."at")
          THEN w."at" END AS "at"
        FROM (SELECT COUNT(*) AS "many", MIN("recordedAt") AS "at" FROM "Outbox"
              WHERE ${waits} AND "attempts" > 0 AND "recordedAt" <= ${before}) w`,
  )
}
