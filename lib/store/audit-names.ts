import { z } from 'zod'
import { LocalDate } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { rowsOf, sql } from './rows.ts'

const Named = z.object({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
})
export type Named = z.infer<typeof Named>

/** Two identifiers of those of the ids that are patients of the clinic. */
export async function patientNames(
  tx: Tx,
  clinicId: string,
  ids: readonly string[],
): Promise<Map<string, Named>> {
  if (ids.length === 0) return new Map()
  const { rows } = await rowsOf(
    tx,
    'patient',
    Named,
    sql`SELECT "id" AS "patientId", "name", "birthDate", "recordNumber" FROM "Patient"
        WHERE "id" IN (${Prisma.join([...ids])}) AND "clinicId" = ${clinicId}`,
  )
  return new Map(rows.map((row) => [row.patientId, row]))
}
