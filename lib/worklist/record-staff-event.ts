import { recordAccess } from '../access/record.ts'
import { recordDrainEvent } from '../assessment/drain-event.ts'
import { now as clock } from '../clock.ts'
import { UNDO_SECONDS } from '../domain/callback.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { NewStaffEvent, type StaffEventRecorded } from '../domain/staff-event.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'

/**
 * Records what was done to a drain, when it was true and now, and assesses the patient anew.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function recordStaffEvent(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<StaffEventRecorded> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { staffEvent: body, patientId } }
  const recorded = await write((tx) =>
    answerOnce(tx, request, stored(now), () => recordStaffEventWithin(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'staff-event' })
  return recorded
}

/** The same within a transaction of the caller's. */
export async function recordStaffEventWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date,
): Promise<StaffEventRecorded> {
  const parsed = NewStaffEvent.safeParse(body)
  if (!parsed.success)
    throw new Refusal('invalid-input', 'The event is not as it is accepted.', faultsOf(parsed.error, body))
  const { clinicId } = staff
  const recordedAt = stored(now)
  await isOfClinic(tx, clinicId, patientId)
  const { drain, type } = parsed.data
  const who = { clinicId, patientId, recordedBy: staff.id }
  const { id: event, at } = await recordDrainEvent(tx, who, parsed.data, now)
  const what = `drain ${drain}: ${type} at ${at}`
  await recordAccess(tx, {
    clinicId,
    at: recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action: 'staff-event',
    patientId,
    what,
  })
  const undoUntil = stored(new Date(now.getTime() + UNDO_SECONDS * 1000))
  return { event, recordedAt, undoUntil }
}
