import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { type AskedAnswer, type CallbackRecorded, NewCallback, UNDO_SECONDS } from '../domain/callback.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addCallback, keepBefore } from '../store/callbacks.ts'
import type { Recorded } from '../store/drains.ts'
import { isInFollowUp } from '../store/follow-up.ts'
import { dropHold, holdOf } from '../store/holds.ts'
import { type Tx, write } from '../store/index.ts'
import { saveCallState } from '../store/patient-states.ts'
import { patientById } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { changedSince, standingOf } from './before-call.ts'
import { closeByCall } from './close-by-call.ts'
import { takenBy } from './holds.ts'
import { nextTryWith } from './next-tries.ts'
import { isOfClinic } from './patient-of.ts'
import { refuseFarOrPast, saidOf } from './said.ts'

/** Attempts that are counted on a row at the most. */
const ATTEMPTS_MAX = 50

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

  const { closes = [], outcome } = parsed.data
  const lookAgainAt = parsed.data.lookAgainAt ? stored(parsed.data.lookAgainAt) : null
  refuseFarOrPast(lookAgainAt, now)
  const before = await standingOf(tx, patientId)
  const id = newId()
  const recorded: Recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  await refuseForeignDrains(tx, patientId, parsed.data.asked ?? [])
  const contact = await contactOf(tx, patientId, parsed.data.contact ?? null)
  await addCallback(tx, { ...saidOf(parsed.data, lookAgainAt), id, at, contact, closes }, recorded)
  const isReached = outcome === 'reached'
  const closed = isReached
    ? await closeByCall(tx, { id, said: parsed.data, lookAgainAt, closes }, recorded)
    : []
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
      : { ...before.calls, attempts: [...before.calls.attempts, at].slice(-ATTEMPTS_MAX) },
  )
  if (isReached) await dropHold(tx, patientId)
  await reassess(tx, patientId, now)
  await keepBefore(tx, patientId, id, {
    ...(await changedSince(tx, patientId, before)),
    hold: isReached ? held : null,
  })
  const what = `${parsed.data.direction === 'they-called' ? 'they called' : 'call'}: ${outcome}${closed.length ? `, closed ${closed.length} flags` : ''}`
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'callback',
    patientId,
    what,
  })
  const undoUntil = stored(new Date(now.getTime() + UNDO_SECONDS * 1000))
  const nextTry = isReached ? null : await nextTryWith(tx, clinicId, patientId, now)
  return { callback: id, closed, undoUntil, nextTry }
}

/** A question is about a drain of this patient, or of none. */
async function refuseForeignDrains(tx: Tx, patientId: string, asked: readonly AskedAnswer[]): Promise<void> {
  const named = new Set(asked.flatMap(({ drain }) => (drain === null ? [] : [drain])))
  if (named.size === 0) return
  const own = await tx.drain.findMany({ where: { patientId }, select: { id: true } })
  const foreign = asked.findIndex(({ drain }) => drain !== null && !own.some(({ id }) => id === drain))
  if (foreign < 0) return
  throw new Refusal('invalid-input', 'The callback is not as it is accepted.', [
    {
      field: `asked[${foreign}].drain`,
      value: asked[foreign]?.drain ?? null,
      message: `names no drain of this patient; accepted: ${own.map(({ id }) => id).join(', ')}, or null`,
    },
  ])
}

/** Whom of the contacts was called; the patient's own entry among them is the patient. */
async function contactOf(tx: Tx, patientId: string, name: string | null): Promise<string | null> {
  if (!name) return null
  const contacts = (await patientById(tx, patientId))?.profile?.contacts ?? []
  const found = contacts.find((one) => one.name === name)
  if (found) return found.relation === 'self' ? null : name
  const accepted = contacts.map((one) => one.name).join(', ') || 'none, no contact is noted'
  throw new Refusal('invalid-input', 'The callback is not as it is accepted.', [
    { field: 'contact', value: name, message: `names no contact of this patient; accepted: ${accepted}` },
  ])
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
