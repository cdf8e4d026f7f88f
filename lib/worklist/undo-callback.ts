import { recordAccess } from '../access/record.ts'
import { stands, step } from '../assessment/flag-life.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { type Callback, UNDO_SECONDS } from '../domain/callback.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { type BeforeCall, beforeOf, callbackById, markUndone, withdrawEvents } from '../store/callbacks.ts'
import { addSteps, flagsByIds, livingFlagsOf, saveFlags } from '../store/flags.ts'
import { holdOf, saveHold } from '../store/holds.ts'
import { type Tx, write } from '../store/index.ts'
import { callStateOf, saveCallState } from '../store/patient-states.ts'
import { stored } from '../store/rows.ts'
import { markOf } from './before-call.ts'
import { isOfClinic } from './patient-of.ts'

export type Undone = { callback: string; undoneAt: string }

/**
 * Takes a recorded call back within its minute: flags, attempts, promises and the hold stand as before it, and the call
 * stays readable as one that was taken back. Whoever presses twice has taken it back once.
 * @throws Refusal not-found, not-allowed (somebody else's), conflict (the minute is over; something has happened since)
 */
export async function undoCallback(
  staff: StaffMember,
  patientId: string,
  callbackId: string,
  now: Date = clock(),
): Promise<Undone> {
  const undone = await write(async (tx) => {
    await isOfClinic(tx, staff.clinicId, patientId)
    const call = await callbackById(tx, patientId, callbackId)
    if (!call) throw new Refusal('not-found', 'There is no such call of this patient.')
    if (call.byId !== staff.id)
      throw new Refusal(
        'not-allowed',
        `Only ${call.by}, who recorded this call, can take it back; you can correct it.`,
      )
    if (call.undoneAt !== null) return { callback: callbackId, undoneAt: call.undoneAt }
    await undo(tx, staff, patientId, call, now)
    return { callback: callbackId, undoneAt: stored(now) }
  })
  tell(staff.clinicId, { patientId, kind: 'callback' })
  return undone
}

async function undo(tx: Tx, staff: StaffMember, patientId: string, call: Callback, now: Date): Promise<void> {
  const { clinicId } = staff
  const at = stored(now)
  if (now.getTime() - Date.parse(call.recordedAt) >= UNDO_SECONDS * 1000)
    throw new Refusal('conflict', 'The minute in which a call can be taken back is over: correct it instead.')
  const before = await beforeOf(tx, call.id)
  if (!before || call.correctedBy !== null)
    throw new Refusal(
      'conflict',
      'Another call or a correction was recorded since: correct this one instead.',
    )
  await refuseIfMoved(tx, patientId, before)

  await markUndone(tx, call.id, at, staff.id)
  await withdrawEvents(tx, [call.id], at)
  const flags = before.flags.map((one) => one.before)
  await saveFlags(tx, clinicId, flags, at)
  const why = 'The recorded call was taken back within its minute; the flag stands as before it.'
  const moved = before.flags.filter(
    (one) => !one.after.startsWith(`${one.before.state} ${one.before.urgency} `),
  )
  await addSteps(
    tx,
    clinicId,
    patientId,
    moved.map((one) => step(one.before, at, 'undone', staff.id, why)),
  )
  await saveCallState(tx, patientId, before.calls.before)
  if (before.hold && !(await holdOf(tx, patientId, at)))
    await saveHold(tx, clinicId, patientId, before.hold, at)
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'callback',
    patientId,
    what: `took back the call ${call.id} of ${call.at} (${call.outcome})`,
  })
}

/** What has happened since the call is not overwritten. */
async function refuseIfMoved(tx: Tx, patientId: string, { flags, calls }: BeforeCall): Promise<void> {
  const ids = flags.map((one) => one.before.id)
  const now = new Map((await flagsByIds(tx, patientId, ids)).rows.map((flag) => [flag.id, markOf(flag)]))
  const { rows: living } = await livingFlagsOf(tx, patientId)
  const isTaken = ({ before }: BeforeCall['flags'][number]) =>
    living.some(
      (flag) =>
        flag.code === before.code && flag.drain === before.drain && stands(flag) && !ids.includes(flag.id),
    )
  const isMoved = flags.some((one) => now.get(one.before.id) !== one.after || isTaken(one))
  const isOtherwise = JSON.stringify(await callStateOf(tx, patientId)) !== JSON.stringify(calls.after)
  if (isMoved || isOtherwise)
    throw new Refusal(
      'conflict',
      'Something has happened to this patient’s flags since: look at the page, and correct the call instead.',
    )
}
