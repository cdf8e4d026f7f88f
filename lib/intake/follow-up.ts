import { recordAccess } from '../access/record.ts'
import { endWithin } from '../assessment/end-follow-up.ts'
import { reassess } from '../assessment/reassess.ts'
import { isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import { EndFollowUp, ResumeFollowUp } from '../domain/follow-up.ts'
import { Refusal } from '../domain/problem.ts'
import { may, type StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf, type Recorded } from '../store/drains.ts'
import { addFollowUpStep, backInFollowUp, endThatHolds, followUpStepsOf } from '../store/follow-up.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { outsideEventsOf } from '../store/outside-events.ts'
import { stored } from '../store/rows.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/**
 * Whether an end needs the right to end follow-up with a drain in place. A death needs nobody's leave.
 * @throws Refusal invalid-input, not-found
 */
export async function endsWithDrain(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date = clock(),
): Promise<boolean> {
  const { reason } = parse('end of follow-up', EndFollowUp, body)
  if (reason === 'died') return false
  return snapshot(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    return (await drainsIn(tx, patientId, now)) > 0
  })
}

/**
 * Ends a patient's follow-up: the row leaves the worklist, no reminder goes out any more, the sweep passes by. Not
 * with a drain in place, unless a physician says why, or the patient has died. A word that comes afterwards still
 * reaches the worklist.
 * @throws Refusal invalid-input, not-allowed, not-found, conflict (it has ended already), key-reused
 */
export async function endFollowUp(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ endedAt: string }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { endFollowUp: body, patientId } }
  const ended = await write((tx) =>
    answerOnce(tx, request, stored(now), () => end(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'follow-up' })
  return ended
}

async function end(tx: Tx, staff: StaffMember, patientId: string, body: unknown, now: Date) {
  const { reason, why } = parse('end of follow-up', EndFollowUp, body)
  const patient = await patientOf(tx, staff.clinicId, patientId)
  if (patient.followUpEndedAt !== null)
    throw new Refusal('conflict', 'Follow-up of this patient has ended already.')
  const left = await drainsIn(tx, patientId, now)
  if (left > 0 && reason !== 'died') refuseWithDrain(staff, why)

  const recorded = recordedBy(staff, patientId, now)
  const at = recorded.recordedAt
  await endWithin(tx, { reason, why }, recorded)
  const drains = left === 0 ? '' : `, with ${left} drain${left === 1 ? '' : 's'} in place`
  await note(
    tx,
    staff,
    recorded,
    'end-follow-up',
    `follow-up ended: ${reason}${drains}${why ? `: ${why}` : ''}`,
  )
  return { endedAt: at }
}

/** `asked`: a death is not undone yet; another person has to confirm it. */
export type Resumed = { state: 'resumed' | 'asked' }

/**
 * Takes a patient back into follow-up, who is then assessed anew. A death is undone by two different people: the
 * first asks, the second confirms. Not while a death stands among the events outside the clinic.
 * @throws Refusal invalid-input, not-found, conflict (it has not ended; a death stands; the same person asked), key-reused
 */
export async function resumeFollowUp(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<Resumed> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { resume: body, patientId } }
  const resumed = await write((tx) =>
    answerOnce(tx, request, stored(now), () => resume(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'follow-up' })
  return resumed
}

async function resume(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date,
): Promise<Resumed> {
  const { why } = parse('undoing', ResumeFollowUp, body)
  const patient = await patientOf(tx, staff.clinicId, patientId)
  if (patient.followUpEndedAt === null) throw new Refusal('conflict', 'This patient is in follow-up.')
  await refuseTheDead(tx, patientId)
  const recorded = recordedBy(staff, patientId, now)
  const { reason = null, asked = null } = await standingEnd(tx, patientId, patient.followUpEnd)
  if (reason === 'died' && asked === null) {
    await addFollowUpStep(tx, { step: 'undo-asked', reason, why }, recorded)
    await note(tx, staff, recorded, 'ask-undo-death', `asked to undo the recorded death: ${why}`)
    return { state: 'asked' }
  }
  if (reason === 'died' && asked === staff.id)
    throw new Refusal('conflict', 'You asked for this yourself: another person has to confirm it.')
  await addFollowUpStep(tx, { step: 'resumed', reason, why }, recorded)
  await backInFollowUp(tx, patientId)
  await reassess(tx, patientId, now)
  await note(tx, staff, recorded, 'resume-follow-up', `follow-up goes on (it had ended: ${reason}): ${why}`)
  return { state: 'resumed' }
}

/** Why follow-up ended, and who asked to undo it. */
async function standingEnd(tx: Tx, patientId: string, reason: EndFollowUp['reason'] | null) {
  const standing = endThatHolds((await followUpStepsOf(tx, patientId)).rows)
  return { reason, asked: standing?.asked?.recordedBy ?? null }
}

/** Nobody is in follow-up of whom a death is on record: it is withdrawn first. */
async function refuseTheDead(tx: Tx, patientId: string): Promise<void> {
  const { rows } = await outsideEventsOf(tx, patientId)
  if (rows.some(({ kind, withdrawnAt }) => kind === 'death' && withdrawnAt === null))
    throw new Refusal(
      'conflict',
      'A death is on record as an event outside the clinic: withdraw it first, under What became of them.',
    )
}

function refuseWithDrain(staff: StaffMember, why: string | undefined): void {
  if (!may(staff.role, 'end-with-drain'))
    throw new Refusal(
      'not-allowed',
      'A drain is still in place: record its removal first, or ask a physician to end follow-up.',
    )
  if (!why)
    throw new Refusal('invalid-input', 'The end of follow-up is not as it is accepted.', [
      { field: 'why', message: 'is missing; needed with a drain in place: why it ends all the same' },
    ])
}

/** How many drains are in place. */
async function drainsIn(tx: Tx, patientId: string, now: Date): Promise<number> {
  const at = stored(now)
  const events = (await staffEventsOf(tx, patientId, at)).rows.filter((event) => event.at <= at)
  const { rows, unreadable } = await drainsOf(tx, patientId, at)
  const left = rows.filter(({ id }) => !isRemoved(events.filter(({ drainId }) => drainId === id)))
  return left.length + unreadable.length
}

const recordedBy = (staff: StaffMember, patientId: string, now: Date): Recorded => ({
  clinicId: staff.clinicId,
  patientId,
  recordedAt: stored(now),
  recordedBy: staff.id,
})

const note = (tx: Tx, staff: StaffMember, recorded: Recorded, action: string, what: string) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: recorded.recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action,
    patientId: recorded.patientId,
    what,
  })
