import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { NewStaffEvent } from '../domain/staff-event.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { addStaffEvent } from '../store/staff-events.ts'
import { isOfClinic } from './patient-of.ts'

/** How far ahead of ours the clock of whoever records may be, in minutes. */
const AHEAD_MINUTES = 15

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
): Promise<{ recordedAt: string }> {
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
): Promise<{ recordedAt: string }> {
  const parsed = NewStaffEvent.safeParse(body)
  if (!parsed.success)
    throw new Refusal('invalid-input', 'The event is not as it is accepted.', faultsOf(parsed.error, body))
  const { clinicId } = staff
  const recordedAt = stored(now)
  await isOfClinic(tx, clinicId, patientId)
  const { at, drain, type, note } = parsed.data
  const drains = (await drainsOf(tx, patientId, recordedAt)).rows.map(({ id }) => id)
  const faults = [
    ...(drains.includes(drain)
      ? []
      : [
          {
            field: 'drain',
            value: drain,
            message: `names no drain of this patient; accepted: ${drains.join(', ')}`,
          },
        ]),
    ...(Date.parse(at) <= now.getTime() + AHEAD_MINUTES * 60_000
      ? []
      : [{ field: 'at', value: at, message: 'accepted: a time that has come' }]),
  ]
  if (faults.length > 0) throw new Refusal('invalid-input', 'The event is not as it is accepted.', faults)

  const happened = stored(new Date(Math.min(Date.parse(at), now.getTime())))
  await addStaffEvent(
    tx,
    { drainId: drain, at: happened, type, code: null, note: note || null, callbackId: null },
    { clinicId, patientId, recordedAt, recordedBy: staff.id },
  )
  await reassess(tx, patientId, now)
  const what = `drain ${drain}: ${type} at ${happened}`
  await recordAccess(tx, {
    clinicId,
    at: recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action: 'staff-event',
    patientId,
    what,
  })
  return { recordedAt }
}
