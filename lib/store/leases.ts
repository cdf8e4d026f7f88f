import type { Tx } from './client.ts'
import { stored } from './rows.ts'

/** Longest lease that anybody takes: one that says more was taken under another clock and counts as lapsed. */
const LONGEST_MS = 5 * 60_000

/** Takes or renews a lease; false while another holder has it. */
export async function takeLease(
  tx: Tx,
  name: string,
  holder: string,
  now: Date,
  forMs: number,
): Promise<boolean> {
  const lease = await tx.lease.findUnique({ where: { name } })
  const leftMs = lease ? Date.parse(lease.until) - now.getTime() : 0
  if (lease && lease.holder !== holder && leftMs > 0 && leftMs <= LONGEST_MS) return false
  const data = { holder, until: stored(new Date(now.getTime() + forMs)) }
  await tx.lease.upsert({ where: { name }, create: { name, ...data }, update: data })
  return true
}

export async function dropLease(tx: Tx, name: string, holder: string): Promise<void> {
  await tx.lease.deleteMany({ where: { name, holder } })
}
