import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import { type Replay, ReplayResult, ReplayState } from '../domain/replay.ts'
import { RuleSet } from '../domain/ruleset.ts'
import type { Tx } from './client.ts'
import { json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

const StoredReplay = z
  .object({
    id: z.string(),
    draftId: z.string().nullable(),
    body: json(RuleSet),
    from: LocalDate,
    until: LocalDate,
    laterFrom: LocalDate.nullable(),
    state: ReplayState,
    done: z.coerce.number(),
    total: z.coerce.number(),
    recordedAt: Instant,
    by: z.string(),
    beatAt: Instant.nullable(),
    endedAt: Instant.nullable(),
    result: json(ReplayResult).nullable(),
    trouble: z.string().nullable(),
  })
  .transform(
    ({ draftId, body, recordedAt, beatAt, ...rest }): KeptReplay => ({
      replay: { ...rest, draft: draftId, rules: body, at: recordedAt },
      beatAt: beatAt ?? recordedAt,
    }),
  )

/** A replay with when its process last gave a sign of life. */
export type KeptReplay = { replay: Replay; beatAt: string }
const shape = StoredReplay as unknown as z.ZodType<KeptReplay>

const columns = sql`r.*, COALESCE(s."name", r."recordedBy") AS "by" FROM "Replay" r
  LEFT JOIN "Staff" s ON s."id" = r."recordedBy"`

export const replayById = (tx: Tx, clinicId: string, id: string): Promise<KeptReplay | null> =>
  rowOf(tx, 'replay', shape, sql`SELECT ${columns} WHERE r."id" = ${id} AND r."clinicId" = ${clinicId}`)

/** The replays of a clinic that wait or run. */
export const unfinishedReplays = (tx: Tx, clinicId: string): Promise<Rows<KeptReplay>> =>
  rowsOf(
    tx,
    'replay',
    shape,
    sql`SELECT ${columns} WHERE r."clinicId" = ${clinicId} AND r."state" IN ('waiting', 'running')
        ORDER BY r."recordedAt"`,
  )

type New = Pick<Replay, 'id' | 'draft' | 'rules' | 'from' | 'until' | 'laterFrom' | 'at'>

export async function addReplay(
  tx: Tx,
  clinicId: string,
  { id, draft, rules, from, until, laterFrom, at }: New,
  by: string,
): Promise<void> {
  const body = JSON.stringify(rules)
  await tx.replay.create({
    data: {
      ...{ id, clinicId, draftId: draft, body, from, until, laterFrom, state: 'waiting' },
      ...{ recordedAt: at, recordedBy: by, beatAt: at },
    },
  })
}

/** Notes how far a replay is; one that was cancelled or has ended meanwhile stays so. Says whether it still runs. */
export async function noteProgress(
  tx: Tx,
  id: string,
  { done, total }: { done: number; total: number },
  at: string,
): Promise<boolean> {
  const count =
    await tx.$executeRaw`UPDATE "Replay" SET "state" = 'running', "done" = ${done}, "total" = ${total}, "beatAt" = ${at},
      "startedAt" = COALESCE("startedAt", ${at}) WHERE "id" = ${id} AND "state" IN ('waiting', 'running')`
  return count > 0
}

type End =
  | { state: 'done'; result: ReplayResult }
  | { state: 'failed'; trouble: string }
  | { state: 'cancelled'; trouble: string }

/** Ends a replay, once: of two ends the first counts. Says whether this was it. */
export async function endReplay(tx: Tx, id: string, end: End, at: string): Promise<boolean> {
  const { count } = await tx.replay.updateMany({
    where: { id, state: { in: ['waiting', 'running'] } },
    data: {
      ...{ state: end.state, endedAt: at },
      ...(end.state === 'done' ? { result: JSON.stringify(end.result) } : { trouble: end.trouble }),
    },
  })
  return count > 0
}
