import { z } from 'zod'
import type { FlagStep } from '../domain/flag.ts'
import type { Tx } from './client.ts'
import { flagsByIds, type KeptFlag, stepsSince } from './flags.ts'
import { rowsOf, sql } from './rows.ts'

/** A flag that an assessment moved, as it stands now, with all its steps, the earliest first. */
export type MovedFlag = { flag: KeptFlag; steps: FlagStep[] }

/**
 * The flags that the assessment of one instant moved: those with a step of that instant, and the closed ones that were
 * found then not to hold any more, of which no step speaks.
 */
export async function flagsMovedAt(tx: Tx, patientId: string, at: string): Promise<MovedFlag[]> {
  const { rows } = await rowsOf(
    tx,
    'flag',
    z.object({ id: z.string() }),
    sql`SELECT "flagId" AS "id" FROM "FlagStep" WHERE "patientId" = ${patientId} AND "at" = ${at}
        UNION SELECT "id" FROM "Flag" WHERE "patientId" = ${patientId} AND "state" = 'closed'
          AND NOT "holdsStill" AND "changedAt" = ${at} AND "closedAt" < ${at}`,
  )
  const { rows: flags } = await flagsByIds(
    tx,
    patientId,
    rows.map(({ id }) => id),
  )
  const [earliest] = flags.map(({ openedAt }) => openedAt).sort()
  if (earliest === undefined) return []
  const before = new Date(Date.parse(earliest) - 1).toISOString()
  const { rows: steps } = await stepsSince(tx, patientId, before)
  return flags.map((flag) => ({ flag, steps: steps.filter(({ flagId }) => flagId === flag.id) }))
}
