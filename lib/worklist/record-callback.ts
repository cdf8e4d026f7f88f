import { recordAccess } from '../access/record.ts'
import { applyCall, type Call, closingFaults } from '../assessment/flag-call.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { NewCallback } from '../domain/callback.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addCallback } from '../store/callbacks.ts'
import type { Recorded } from '../store/drains.ts'
import { addSteps, livingFlagsOf, saveFlags } from '../store/flags.ts'
import { isInFollowUp } from '../store/follow-up.ts'
import { dropHold, holdOf } from '../store/holds.ts'
import { type Tx, write } from '../store/index.ts'
import { callStateOf, saveCallState } from '../store/patient-states.ts'
import { newId, stored } from '../store/rows.ts'
import { addStaffEvent } from '../store/staff-events.ts'
import { takenBy } from './holds.ts'
import { isOfClinic } from './patient-of.ts'

/** Farthest time to look again that is taken for meant, in days. */
const LOOK_AGAIN_MAX_DAYS = 31
/** Attempts that are counted on a row at the most. */
const ATTEMPTS_MAX = 50

/** `closed` are the flags that it closed: those it names, and those for which only the call was owed. */
export type CallbackRecorded = { callback: string; closed: string[] }

/**
 * Records an attempt to call, and what it closes.
 * @throws Refusal invalid-input, taken (somebody else has the row), not-found, key-reused
 */
export async function recordCallback(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<CallbackRecorded> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { callback: body, patientId } }
  const recorded = await write((tx) =>
    answerOnce(tx, request, stored(now), () => recordCallbackWithin(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'callback' })
  return recorded
}

/** The same within a transaction of the caller's. */
export async function recordCallbackWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date,
): Promise<CallbackRecorded> {
  const parsed = NewCallback.safeParse(body)
  if (!parsed.success)
    throw new Refusal('invalid-input', 'The callback is not as it is accepted.', faultsOf(parsed.error, body))
  const { clinicId } = staff
  const at = stored(now)
  await isOfClinic(tx, clinicId, patientId)
  const held = await holdOf(tx, patientId, at)
  if (held && held.staffId !== staff.id) throw takenBy(held)

  const { outcome, spokenTo, agreed = [], closes = [], note = '' } = parsed.data
  const lookAgainAt = parsed.data.lookAgainAt ? stored(parsed.data.lookAgainAt) : null
  refuseFarOrPast(lookAgainAt, now)
  const id = newId()
  const isReached = outcome === 'reached'
  const recorded: Recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  const callback = { id, at, outcome, spokenTo: spokenTo ?? null, agreed, closes, lookAgainAt, note }
  await addCallback(tx, callback, recorded)
  const call: Call = { at, by: staff.id, closes, lookAgainAt, why: `Agreed: ${agreed.join(', ')}.` }
  const closed = isReached ? await close(tx, call, id, recorded) : []
  const before = await callStateOf(tx, patientId)
  const isEnded = !(await isInFollowUp(tx, patientId))
  await saveCallState(
    tx,
    patientId,
    isReached
      ? {
          lastSpokenAt: at,
          attempts: [],
          ...promiseOf(closed.length === 0 ? 'whole' : 'flags', lookAgainAt, isEnded),
        }
      : {
          lastSpokenAt: before?.lastSpokenAt ?? null,
          lookAgainAt: before?.lookAgainAt ?? null,
          lookAgainWhy: before?.lookAgainWhy ?? null,
          attempts: [...(before?.attempts ?? []), at].slice(-ATTEMPTS_MAX),
        },
  )
  if (isReached) await dropHold(tx, patientId)
  await reassess(tx, patientId, now)
  const what = `call: ${outcome}${closed.length ? `, closed ${closed.length} flags` : ''}`
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'callback',
    patientId,
    what,
  })
  return { callback: id, closed }
}

/**
 * The time to look again that was agreed, where it does not hang on the flags that were closed. Once follow-up has
 * ended no sweep brings a flag back, so that the promise is the patient's, and says why it stands.
 */
function promiseOf(of: 'whole' | 'flags', lookAgainAt: string | null, isEnded: boolean) {
  if (isEnded && lookAgainAt !== null)
    return { lookAgainAt, lookAgainWhy: 'to look again, as agreed after follow-up ended' }
  return { lookAgainAt: of === 'whole' ? lookAgainAt : null, lookAgainWhy: null }
}

/** Closes what the call names. The rules are told of it by staff events; of a call that was merely owed they need not know. */
async function close(tx: Tx, call: Call, callbackId: string, recorded: Recorded): Promise<string[]> {
  const { clinicId, patientId } = recorded
  const { rows } = await livingFlagsOf(tx, patientId)
  const faults = closingFaults(rows, call)
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The callback does not close what it names.', faults)
  const { flags, steps, closed } = applyCall(rows, call)
  await saveFlags(tx, clinicId, flags, call.at)
  await addSteps(tx, clinicId, patientId, steps)
  for (const { id, code, drain } of closed) {
    if (!call.closes.includes(id)) continue
    const event = { drainId: drain, at: call.at, type: 'flag-closed' as const, code, note: null, callbackId }
    await addStaffEvent(tx, event, recorded)
  }
  return closed.map(({ id }) => id)
}

function refuseFarOrPast(lookAgainAt: string | null, now: Date): void {
  if (lookAgainAt === null) return
  const ahead = Date.parse(lookAgainAt) - now.getTime()
  if (ahead > 0 && ahead <= LOOK_AGAIN_MAX_DAYS * 86_400_000) return
  throw new Refusal('invalid-input', 'The callback is not as it is accepted.', [
    {
      field: 'lookAgainAt',
      value: lookAgainAt,
      message: `accepted: a time ahead, within ${LOOK_AGAIN_MAX_DAYS} days`,
    },
  ])
}
