import { addAccessRow, lastAccessRow } from '../store/access-records.ts'
import type { Tx } from '../store/index.ts'
import { CHAIN_START, hashOfRow } from './chain.ts'

/** Who saw or did what. `staffId` is null where no member of staff acted; `actor` names who did in words. */
export type AccessEntry = {
  clinicId: string
  at: string
  staffId: string | null
  actor: string
  role?: string | null
  action: string
  patientId: string | null
  what: string
}

/** Adds one row to the clinic's access record, in the caller's transaction: what happened is recorded, or did not happen. */
export async function recordAccess(tx: Tx, entry: AccessEntry): Promise<void> {
  const { clinicId, at, staffId, actor, role = null, action, patientId, what } = entry
  const last = await lastAccessRow(tx, clinicId)
  const row = {
    clinicId,
    seq: (last?.seq ?? 0) + 1,
    at,
    staffId,
    actor,
    role,
    action,
    patientId,
    what,
    previousHash: last?.hash ?? CHAIN_START,
  }
  await addAccessRow(tx, { ...row, hash: hashOfRow(row) })
}
