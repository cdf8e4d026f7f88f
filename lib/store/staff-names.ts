import { z } from 'zod'
import type { Tx } from './client.ts'
import { rowsOf, sql } from './rows.ts'

/** The names of a clinic's staff by id, of those who left too: what they did stays theirs. */
export async function staffNamesOf(tx: Tx, clinicId: string): Promise<Map<string, string>> {
  const shape = z.object({ id: z.string(), name: z.string() })
  const { rows } = await rowsOf(
    tx,
    'staff',
    shape,
    sql`SELECT "id", "name" FROM "Staff" WHERE "clinicId" = ${clinicId}`,
  )
  return new Map(rows.map(({ id, name }) => [id, name]))
}
