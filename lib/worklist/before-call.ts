import type { BeforeCall } from '../store/callbacks.ts'
import { flagsByIds, type KeptFlag, livingFlagsOf } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { type CallState, callStateOf } from '../store/patient-states.ts'

const NO_CALLS: CallState = { lookAgainAt: null, lookAgainWhy: null, lastSpokenAt: null, attempts: [] }

/** What of a flag another call, new evidence or a time that has come would change. */
export const markOf = ({
  state,
  urgency,
  actBy,
  spokenAt,
  closedAt,
  endedAt,
  lookAgainAt,
}: KeptFlag): string => [state, urgency, actBy, spokenAt, closedAt, endedAt, lookAgainAt].join(' ')

export type Standing = { flags: KeptFlag[]; calls: CallState }

/** How a patient's flags and calls stand before a call is recorded. */
export async function standingOf(tx: Tx, patientId: string): Promise<Standing> {
  const { rows: flags } = await livingFlagsOf(tx, patientId)
  return { flags, calls: (await callStateOf(tx, patientId)) ?? NO_CALLS }
}

/** What has become of it since, as it is kept for taking the call back: the flags that moved, and the marks of all. */
export async function changedSince(
  tx: Tx,
  patientId: string,
  before: Standing,
): Promise<Omit<BeforeCall, 'hold'>> {
  const now = await flagsByIds(
    tx,
    patientId,
    before.flags.map(({ id }) => id),
  )
  const after = new Map(now.rows.map((flag) => [flag.id, flag]))
  const flags = before.flags.flatMap((flag) => {
    const moved = after.get(flag.id)
    return moved && markOf(moved) !== markOf(flag) ? [{ before: flag, after: markOf(moved) }] : []
  })
  return { flags, calls: { before: before.calls, after: (await callStateOf(tx, patientId)) ?? NO_CALLS } }
}
