import { accessRowsAfter } from '../store/access-records.ts'
import type { Tx } from '../store/index.ts'
import { CHAIN_START, type ChainEnd, followChain } from './chain.ts'

const PIECE = 2_000

export type ChainVerdict =
  | { clinicId: string; whole: true; rows: number; head: string }
  /** `rows`: how many are whole before the break. */
  | { clinicId: string; whole: false; rows: number; broken: string }

/**
 * Walks a clinic's whole access record. A chain that was cut at its end is whole by itself: only a head that was
 * noted elsewhere (`known`: that row's number and hash) shows it, as it shows a chain that was written anew.
 */
export async function verifyChain(tx: Tx, clinicId: string, known?: ChainEnd): Promise<ChainVerdict> {
  let last: ChainEnd = { seq: 0, hash: CHAIN_START }
  const broken = (why: string, rows = last.seq): ChainVerdict => ({
    clinicId,
    whole: false,
    rows,
    broken: why,
  })
  for (;;) {
    const rows = await accessRowsAfter(tx, clinicId, last.seq, PIECE)
    if (rows.length === 0) break
    const noted = rows.find(({ seq }) => seq === known?.seq)
    const end = followChain(last, rows)
    if ('broken' in end) return broken(end.broken, end.seq - 1)
    if (noted && noted.hash !== known?.hash) return broken(`row ${noted.seq} is not the one that was noted`)
    last = end
  }
  if (known && known.seq > last.seq)
    return broken(`row ${known.seq} was noted, but the record ends at row ${last.seq}`)
  return { clinicId, whole: true, rows: last.seq, head: last.hash }
}
