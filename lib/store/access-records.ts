import type { Tx } from './client.ts'
import { sql } from './rows.ts'

/** One row of the access record: who saw or did what, and the hash that ties it to the row before. */
export type AccessRow = {
  clinicId: string
  seq: number
  at: string
  staffId: string | null
  actor: string
  role: string | null
  action: string
  patientId: string | null
  what: string
  previousHash: string
  hash: string
}

/** The newest row of a clinic's chain, as the next one needs it. */
export async function lastAccessRow(tx: Tx, clinicId: string): Promise<{ seq: number; hash: string } | null> {
  const [row] = await tx.$queryRaw<{ seq: number | bigint; hash: string }[]>(
    sql`SELECT "seq", "hash" FROM "AccessRecord" WHERE "clinicId" = ${clinicId} ORDER BY "seq" DESC LIMIT 1`,
  )
  return row ? { seq: Number(row.seq), hash: row.hash } : null
}

/** The newest row of one action that touches no patient: who did it last, and when. */
export async function lastAccessOf(
  tx: Tx,
  clinicId: string,
  action: string,
): Promise<{ at: string; actor: string } | null> {
  const [row] = await tx.$queryRaw<{ at: string; actor: string }[]>(
    sql`SELECT "at", "actor" FROM "AccessRecord" WHERE "clinicId" = ${clinicId} AND "patientId" IS NULL
        AND "action" = ${action} ORDER BY "seq" DESC LIMIT 1`,
  )
  return row ?? null
}

export async function addAccessRow(tx: Tx, row: AccessRow): Promise<void> {
  await tx.accessRecord.create({ data: row })
}

/** The rows after `afterSeq` in the order of the chain, at most `most`: a long record is read in pieces. */
export async function accessRowsAfter(
  tx: Tx,
  clinicId: string,
  afterSeq: number,
  most: number,
): Promise<AccessRow[]> {
  const rows = await tx.$queryRaw<(Omit<AccessRow, 'seq'> & { seq: number | bigint })[]>(
    sql`SELECT "clinicId", "seq", "at", "staffId", "actor", "role", "action", "patientId", "what", "previousHash", "hash"
        FROM "AccessRecord" WHERE "clinicId" = ${clinicId} AND "seq" > ${afterSeq} ORDER BY "seq" LIMIT ${most}`,
  )
  return rows.map((row) => ({ ...row, seq: Number(row.seq) }))
}

/** Clinics that have an access record, whether or not the clinic itself still stands. */
export async function clinicsWithAccessRows(tx: Tx): Promise<string[]> {
  const rows = await tx.$queryRaw<{ clinicId: string }[]>(
    sql`SELECT DISTINCT "clinicId" FROM "AccessRecord" ORDER BY "clinicId"`,
  )
  return rows.map(({ clinicId }) => clinicId)
}
