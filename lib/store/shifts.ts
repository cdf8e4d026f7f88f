import { type NewShift, Shift } from '../domain/rota.ts'
import type { Tx } from './client.ts'
import { newId, type Rows, rowsOf, sql, stored } from './rows.ts'

const columns = sql`"id", "name", "email", "phone", "rank", "from", "until"`

/** The shifts of a clinic that were not removed and are not over at an instant, by their beginning. */
export const shiftsFrom = (tx: Tx, clinicId: string, at: string): Promise<Rows<Shift>> =>
  rowsOf(
    tx,
    'shift',
    Shift,
    sql`SELECT ${columns} FROM "OnCallShift" WHERE "clinicId" = ${clinicId} AND "until" > ${at} AND "removedAt" IS NULL
        ORDER BY "from", "rank", "id"`,
  )

/** One shift of a clinic, over or removed as it may be. */
export async function shiftById(tx: Tx, clinicId: string, id: string): Promise<Shift | null> {
  const { rows } = await rowsOf(
    tx,
    'shift',
    Shift,
    sql`SELECT ${columns} FROM "OnCallShift" WHERE "id" = ${id} AND "clinicId" = ${clinicId}`,
  )
  return rows[0] ?? null
}

type By = { clinicId: string; recordedAt: string; recordedBy: string }

export async function addShift(tx: Tx, shift: NewShift, by: By): Promise<string> {
  const id = newId()
  const times = { from: stored(shift.from), until: stored(shift.until) }
  await tx.onCallShift.create({ data: { id, ...shift, ...times, ...by } })
  return id
}

/** Notes that a shift was taken out of the rota; it stays to be read. False where it was out already. */
export async function removeShift(
  tx: Tx,
  clinicId: string,
  id: string,
  removedAt: string,
  removedBy: string,
): Promise<boolean> {
  const { count } = await tx.onCallShift.updateMany({
    where: { id, clinicId, removedAt: null },
    data: { removedAt, removedBy },
  })
  return count > 0
}
