import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Hold } from '../domain/worklist.ts'
import type { Tx } from './client.ts'
import { type Rows, rowOf, rowsOf, sql } from './rows.ts'

const StoredHold = z
  .object({
    patientId: z.string(),
    staffId: z.string(),
    name: z.string(),
    initials: z.string(),
    until: Instant,
  })
  .transform(({ patientId, ...hold }) => ({ patientId, hold: hold satisfies Hold }))
type StoredHold = z.infer<typeof StoredHold>
const shape = StoredHold as unknown as z.ZodType<StoredHold>

/** Who has a patient's row at an instant; null once it has lapsed. */
export async function holdOf(tx: Tx, patientId: string, now: string): Promise<Hold | null> {
  const found = await rowOf(
    tx,
    'hold',
    shape,
    sql`SELECT * FROM "Hold" WHERE "patientId" = ${patientId} AND "until" > ${now}`,
  )
  return found?.hold ?? null
}

/** Every row of a clinic that is taken at an instant. */
export const holdsOf = (tx: Tx, clinicId: string, now: string): Promise<Rows<StoredHold>> =>
  rowsOf(tx, 'hold', shape, sql`SELECT * FROM "Hold" WHERE "clinicId" = ${clinicId} AND "until" > ${now}`)

export async function saveHold(
  tx: Tx,
  clinicId: string,
  patientId: string,
  hold: Hold,
  takenAt: string,
): Promise<void> {
  const data = { ...hold, clinicId, takenAt }
  await tx.hold.upsert({ where: { patientId }, create: { patientId, ...data }, update: data })
}

export async function dropHold(tx: Tx, patientId: string): Promise<void> {
  await tx.hold.deleteMany({ where: { patientId } })
}
