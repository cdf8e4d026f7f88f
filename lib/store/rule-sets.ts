import { z } from 'zod'
import type { Tx } from './client.ts'
import { rowOf, sql } from './rows.ts'

/** The body of the clinic's rule set in force at an instant, as it was stored; null where it has none of its own. */
export async function ruleSetBodyAt(tx: Tx, clinicId: string, at: string): Promise<string | null> {
  const found = await rowOf(
    tx,
    'rule set',
    z.object({ body: z.string() }),
    sql`SELECT "body" FROM "RuleSet" WHERE "clinicId" = ${clinicId} AND "inForceFrom" <= ${at} AND "recordedAt" <= ${at}
        ORDER BY "inForceFrom" DESC, "recordedAt" DESC LIMIT 1`,
  )
  return found?.body ?? null
}
