import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import { DrainCorrection } from '../domain/drain-change.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf, saveDrainName } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { addNote } from '../store/patient-notes.ts'
import { newId, stored } from '../store/rows.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { isAlike } from './add-drain.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/**
 * Corrects the name or the side of a drain, with a reason. What it was before stands in a note on the patient and in the
 * access record; findings name it anew.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function correctDrain(
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ drain: string }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { correctDrain: drainId, body } }
  const corrected = await write((tx) =>
    answerOnce(tx, request, stored(now), () => correct(tx, staff, patientId, drainId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'orders' })
  return corrected
}

async function correct(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  now: Date,
) {
  const { label, side, why } = parse('correction', DrainCorrection, body)
  const { clinicId } = staff
  const at = stored(now)
  await patientOf(tx, clinicId, patientId)
  const { rows: drains } = await drainsOf(tx, patientId, at)
  const before = drains.find(({ id }) => id === drainId)
  if (!before) throw new Refusal('not-found', 'This patient has no such drain.')
  const events = (await staffEventsOf(tx, patientId, at)).rows
  const others = drains.filter(
    ({ id }) => id !== drainId && !isRemoved(events.filter((event) => event.drainId === id)),
  )
  if (others.some((other) => isAlike(other.label, label)))
    throw new Refusal('invalid-input', 'The correction is not as it is accepted.', [
      { field: 'label', value: label, message: 'accepted: a name that no other drain in place has' },
    ])

  await saveDrainName(tx, drainId, { label, side })
  const named = (name: string, of: string | null) => `${name} (${of ?? 'no side'})`
  const text = `Drain corrected: ${named(before.label, before.side)} is ${named(label, side)}. ${why}`
  const recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  await addNote(tx, { id: newId(), text }, recorded)
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'correct-drain',
    patientId,
    what: `drain ${drainId}: ${text}`,
  })
  return { drain: drainId }
}
