import { recordAccess } from '../access/record.ts'
import { recordDrainEvent } from '../assessment/drain-event.ts'
import { pauseFlags, resumeFlags } from '../assessment/in-hospital.ts'
import { reassess } from '../assessment/reassess.ts'
import { isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import {
  Discharged,
  eventOfFound,
  foundDrainLabels,
  NewAdmission,
  type StandingAdmission,
} from '../domain/admission.ts'
import { type Fault, faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { addAdmission, admissionOf, endAdmission, type KeptAdmission } from '../store/admissions.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf, type Recorded } from '../store/drains.ts'
import { isInFollowUp } from '../store/follow-up.ts'
import { dropHold } from '../store/holds.ts'
import { type Tx, write } from '../store/index.ts'
import { callStateOf, saveCallState } from '../store/patient-states.ts'
import { stored } from '../store/rows.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { isOfClinic } from './patient-of.ts'

/** How far ahead of ours the clock of whoever records may be. */
const AHEAD_MS = 15 * 60_000
const YEAR_MS = 366 * 86_400_000

/**
 * Records that a patient is in hospital: the deadlines of all that is flagged rest, the flags stay, no reminder
 * goes out and nobody is called at night, until staff confirm the drains.
 * @throws Refusal invalid-input, not-found, conflict (there already, or follow-up has ended), key-reused
 */
export async function admit(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<StandingAdmission> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { admission: body, patientId } }
  const admitted = await write((tx) =>
    answerOnce(tx, request, stored(now), () => admitWithin(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'staff-event' })
  return admitted
}

async function admitWithin(tx: Tx, staff: StaffMember, patientId: string, body: unknown, now: Date) {
  const parsed = NewAdmission.safeParse(body)
  if (!parsed.success) throw refused('admission', faultsOf(parsed.error, body))
  await isOfClinic(tx, staff.clinicId, patientId)
  if (await admissionOf(tx, patientId))
    throw new Refusal('conflict', 'This patient is in hospital by the record already.')
  if (!(await isInFollowUp(tx, patientId)))
    throw new Refusal('conflict', 'Follow-up of this patient has ended.')
  const ms = Date.parse(parsed.data.at)
  if (ms > now.getTime() + AHEAD_MS || ms < now.getTime() - YEAR_MS)
    throw refused('admission', [
      { field: 'at', value: parsed.data.at, message: 'accepted: a time that has come, within the last year' },
    ])
  const at = stored(new Date(Math.min(ms, now.getTime())))
  const place = parsed.data.place || null
  const recorded = recordedBy(staff, patientId, now)
  await addAdmission(tx, { at, place }, recorded)
  const where = place ? `: ${place}` : ''
  await pauseFlags(tx, recorded, recorded.recordedAt, staff.id, `In hospital${where}. Deadlines rest.`)
  await dropHold(tx, patientId)
  await reassess(tx, patientId, now)
  await note(tx, staff, recorded, 'admit', `in hospital since ${at}${where}`)
  return { since: at, place }
}

/**
 * Ends a stay in hospital: what staff found of every drain is recorded as it is of any other day, the patient is
 * assessed, and the act by of each flag that still stands is counted anew from now.
 * @throws Refusal invalid-input (a drain is missing, a time has not come), not-found, conflict, key-reused
 */
export async function discharge(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ endedAt: string }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { discharged: body, patientId } }
  const ended = await write((tx) =>
    answerOnce(tx, request, stored(now), () => dischargeWithin(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'staff-event' })
  return ended
}

async function dischargeWithin(tx: Tx, staff: StaffMember, patientId: string, body: unknown, now: Date) {
  const parsed = Discharged.safeParse(body)
  if (!parsed.success) throw refused('end of the stay', faultsOf(parsed.error, body))
  await isOfClinic(tx, staff.clinicId, patientId)
  const admission = await admissionOf(tx, patientId)
  if (!admission) throw new Refusal('conflict', 'This patient is not in hospital by the record.')
  const said = parsed.data
  const recorded = recordedBy(staff, patientId, now)
  const faults = await confirmingFaults(tx, admission, said, now)
  if (faults.length > 0) throw refused('end of the stay', faults)

  const who = { clinicId: staff.clinicId, patientId, recordedBy: staff.id }
  const words = said.note ? `After the stay in hospital. ${said.note}` : 'After the stay in hospital.'
  for (const { drain, found, at } of said.drains)
    await recordDrainEvent(tx, who, { drain, at, type: eventOfFound[found], note: words.slice(0, 2000) }, now)
  const at = recorded.recordedAt
  await endAdmission(tx, admission.id, { at, by: staff.id, confirmed: said.drains })
  await renewPromise(tx, patientId, at)
  await reassess(tx, patientId, now)
  await resumeFlags(
    tx,
    recorded,
    at,
    staff.id,
    'Back home, the drains are confirmed. Deadlines count from here.',
  )
  const found = said.drains.map((one) => `drain ${one.drain} ${foundDrainLabels[one.found]}`).join(', ')
  await note(tx, staff, recorded, 'discharge', `back from hospital: ${found || 'no drain in place'}`)
  return { endedAt: at }
}

/** Every drain that is in place must be confirmed, once, at a time within the stay or after it. */
async function confirmingFaults(
  tx: Tx,
  admission: KeptAdmission,
  { drains }: Discharged,
  now: Date,
): Promise<Fault[]> {
  const at = stored(now)
  const events = (await staffEventsOf(tx, admission.patientId, at)).rows
  const inPlace = (await drainsOf(tx, admission.patientId, at)).rows.filter(
    ({ id }) => !isRemoved(events.filter(({ drainId }) => drainId === id)),
  )
  const faults: Fault[] = []
  const accepted = inPlace.map(({ id }) => id).join(', ') || 'none, no drain is in place'
  for (const [i, one] of drains.entries()) {
    const field = `drains[${i}]`
    if (!inPlace.some(({ id }) => id === one.drain))
      faults.push({
        field: `${field}.drain`,
        value: one.drain,
        message: `names no drain in place; accepted: ${accepted}`,
      })
    else if (drains.findIndex(({ drain }) => drain === one.drain) !== i)
      faults.push({
        field: `${field}.drain`,
        value: one.drain,
        message: 'stands twice; accepted: each drain once',
      })
    const ms = Date.parse(one.at)
    if (ms < Date.parse(admission.at) || ms > now.getTime() + AHEAD_MS)
      faults.push({
        field: `${field}.at`,
        value: one.at,
        message: `accepted: a time from the admission (${admission.at}) until now`,
      })
  }
  for (const { id, label } of inPlace)
    if (!drains.some(({ drain }) => drain === id))
      faults.push({
        field: 'drains',
        message: `${label} is missing; accepted: every drain in place, confirmed`,
      })
  return faults
}

/** A promise to look again that fell due during the stay is due from now on. */
async function renewPromise(tx: Tx, patientId: string, at: string): Promise<void> {
  const state = await callStateOf(tx, patientId)
  if (state?.lookAgainAt && state.lookAgainAt < at)
    await saveCallState(tx, patientId, { ...state, lookAgainAt: at })
}

const refused = (what: string, faults: Fault[]) =>
  new Refusal('invalid-input', `The ${what} is not as it is accepted.`, faults)

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
