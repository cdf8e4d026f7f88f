import { createHash } from 'node:crypto'
import type { AccessRow } from '../store/access-records.ts'

/** The hash before the first row of a clinic's chain. */
export const CHAIN_START = '0'.repeat(64)

/** The hash of a row: over all that it says and the hash of the row before, as one JSON list so that no two rows read alike. */
export function hashOfRow(row: Omit<AccessRow, 'hash'>): string {
  const { previousHash, clinicId, seq, at, staffId, actor, role, action, patientId, what } = row
  const said = JSON.stringify([
    previousHash,
    clinicId,
    seq,
    at,
    staffId,
    actor,
    role,
    action,
    patientId,
    what,
  ])
  return createHash('sha256').update(said).digest('hex')
}

export type ChainEnd = { seq: number; hash: string }

/**
 * What is wrong with a piece of a chain that follows `end`, in words, or the end of the piece. A changed row no
 * longer fits its own hash; a removed, added or moved one breaks the count or the link to the row before.
 */
export function followChain(
  end: ChainEnd,
  rows: readonly AccessRow[],
): ChainEnd | { broken: string; seq: number } {
  let last = end
  for (const row of rows) {
    const seq = last.seq + 1
    if (row.seq !== seq)
      return { seq, broken: `row ${seq} is missing: after row ${last.seq} comes row ${row.seq}` }
    if (row.previousHash !== last.hash)
      return {
        seq,
        broken: `row ${seq} does not follow row ${last.seq} as it stands: one of them was removed, moved or changed`,
      }
    if (row.hash !== hashOfRow(row)) return { seq, broken: `row ${seq} is not as it was written` }
    last = { seq, hash: row.hash }
  }
  return last
}
