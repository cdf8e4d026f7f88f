import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { type Callback, CallCorrection } from '../domain/callback.ts'
import { failedSince } from '../domain/next-try.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addCallback, callbackById, callbacksOf, withdrawEvents } from '../store/callbacks.ts'
import type { Recorded } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { callStateOf, saveCallState } from '../store/patient-states.ts'
import { newId, stored } from '../store/rows.ts'
import { correctFlags } from './correct-flags.ts'
import { isOfClinic } from './patient-of.ts'
import { refuseFarOrPast, saidOf } from './said.ts'

/** Calls that are looked through for the last one that reached somebody. */
const MOST_CALLS = 200

/**
 * Corrects what is on record of a call: a new record beside the old one, which stays readable and no longer counts.
 * It closes nothing. Of a call that reached nobody after all, what it had closed comes back, as a step of each flag.
 * @throws Refusal invalid-input, not-found, conflict (it was taken back, or corrected already), key-reused
 */
export async function correctCallback(
  staff: StaffMember,
  patientId: string,
  callbackId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ callback: string; returned: string[] }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { correct: callbackId, body } }
  const corrected = await write((tx) =>
    answerOnce(tx, request, stored(now), () => correct(tx, staff, patientId, callbackId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'callback' })
  return corrected
}

async function correct(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  callbackId: string,
  body: unknown,
  now: Date,
) {
  const parsed = CallCorrection.safeParse(body)
  if (!parsed.success)
    throw new Refusal(
      'invalid-input',
      'The correction is not as it is accepted.',
      faultsOf(parsed.error, body),
    )
  const { clinicId } = staff
  const at = stored(now)
  await isOfClinic(tx, clinicId, patientId)
  const call = await callbackById(tx, patientId, callbackId)
  if (!call) throw new Refusal('not-found', 'There is no such call of this patient.')
  await refuseIfOver(tx, patientId, call)
  const { outcome, why } = parsed.data
  refuseOutcome(call, outcome)
  const isReached = outcome === 'reached'
  const lookAgainAt = isReached && parsed.data.lookAgainAt ? stored(parsed.data.lookAgainAt) : null
  if (lookAgainAt !== call.lookAgainAt) refuseFarOrPast(lookAgainAt, now)

  const { direction, contact, closes } = call
  const id = newId()
  const recorded: Recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  const asked = isReached ? call.asked : []
  const kept = { direction, contact, corrects: call.id, why, closes: isReached ? closes : [], asked }
  const said = saidOf(parsed.data, lookAgainAt)
  await addCallback(tx, { ...said, ...kept, id, at: call.at }, recorded)
  const returned = await correctFlags(tx, { call, said, why }, recorded)
  if (call.outcome === 'reached' && !isReached)
    await withdrawEvents(tx, await chainOf(tx, patientId, call), at)
  await settleCalls(tx, patientId, call, lookAgainAt)
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'callback',
    patientId,
    what: `corrected the call ${call.id} of ${call.at}, from ${call.outcome} to ${outcome}${returned.length ? `; ${returned.length} flags came back` : ''}: ${why}`,
  })
  return { callback: id, returned }
}

async function refuseIfOver(tx: Tx, patientId: string, call: Callback): Promise<void> {
  if (call.undoneAt !== null)
    throw new Refusal('conflict', `${call.undoneBy} took this call back; there is nothing to correct.`)
  if (call.correctedBy === null) return
  const by = (await callbackById(tx, patientId, call.correctedBy))?.by ?? 'Somebody'
  throw new Refusal(
    'conflict',
    `${by} has corrected this call already: look at the list, and correct the newer one.`,
  )
}

/** A call in which somebody was reached closes flags and ends what is owed: it is recorded as one, never by correction. */
function refuseOutcome(call: Callback, outcome: Callback['outcome']): void {
  if (call.outcome !== 'reached' && outcome === 'reached')
    throw new Refusal(
      'invalid-input',
      'A call that reached somebody is recorded as a call of its own, so that what it closes is named.',
      [{ field: 'outcome', value: outcome, message: 'accepted: no-answer, left-message, wrong-number' }],
    )
  if (call.direction === 'they-called' && outcome !== 'reached')
    throw new Refusal('invalid-input', 'Who called was reached.', [
      { field: 'outcome', value: outcome, message: 'accepted: reached, of somebody who called' },
    ])
}

/** The call with those that it corrects in turn: staff events hang on the first of them. */
async function chainOf(tx: Tx, patientId: string, call: Callback): Promise<string[]> {
  const ids = [call.id]
  for (let one: Callback | null = call; one?.corrects; one = await callbackById(tx, patientId, one.corrects))
    ids.push(one.corrects)
  return ids
}

/** When somebody was last spoken to, and the tries since, as the calls now tell it; a promise that the call made moves with it. */
async function settleCalls(
  tx: Tx,
  patientId: string,
  call: Callback,
  lookAgainAt: string | null,
): Promise<void> {
  const state = await callStateOf(tx, patientId)
  if (!state) return
  const { rows } = await callbacksOf(tx, patientId, MOST_CALLS)
  const spoken = rows.find(
    ({ outcome, undoneAt, correctedBy }) =>
      outcome === 'reached' && undoneAt === null && correctedBy === null,
  )
  const isItsPromise = call.lookAgainAt !== null && state.lookAgainAt === call.lookAgainAt
  await saveCallState(tx, patientId, {
    ...state,
    lastSpokenAt: spoken?.at ?? null,
    attempts: failedSince(rows)
      .map(({ at }) => at)
      .reverse(),
    ...(isItsPromise ? { lookAgainAt, lookAgainWhy: lookAgainAt === null ? null : state.lookAgainWhy } : {}),
  })
}
