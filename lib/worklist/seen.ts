import { recordAccess } from '../access/record.ts'
import type { StaffMember } from '../domain/staff.ts'
import { write } from '../store/index.ts'
import { stored } from '../store/rows.ts'

/** How long a patient whom somebody saw on the worklist counts as seen, so that a live list does not fill the record. */
const SEEN_MS = 60 * 60_000

const KEY = Symbol.for('outflow.worklist.seen')
const shared = globalThis as typeof globalThis & { [KEY]?: Map<string, Map<string, number>> }

/** Enters in the access record whom a member of staff sees on the worklist: each patient once an hour. */
export async function noteWorklistSeen(
  staff: StaffMember,
  patientIds: readonly string[],
  now: Date,
): Promise<void> {
  shared[KEY] ??= new Map()
  const seen = shared[KEY].get(staff.id) ?? new Map<string, number>()
  const isFresh = (at: number | undefined) => at !== undefined && Math.abs(now.getTime() - at) < SEEN_MS
  const unseen = patientIds.filter((id) => !isFresh(seen.get(id)))
  if (unseen.length === 0) return
  await write((tx) =>
    recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'view-worklist',
      patientId: null,
      what: `saw on the worklist: ${unseen.join(' ')}`,
    }),
  )
  const standing = new Set(patientIds)
  shared[KEY].set(
    staff.id,
    new Map([
      ...[...seen].filter(([id]) => standing.has(id)),
      ...unseen.map((id) => [id, now.getTime()] as const),
    ]),
  )
}
