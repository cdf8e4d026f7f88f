import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import { AddedDrain, isAlike, MOST_DRAINS } from '../domain/drain-change.ts'
import type { NewDrain } from '../domain/enrolment.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { addOrdered } from './enrol.ts'
import { bookingFaults, drainFaults } from './enrol-faults.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'
import { bookVisitWithin } from './visits.ts'

/**
 * Adds a drain with its orders to a patient in follow-up, who is assessed anew. What was said before is untouched.
 * @throws Refusal invalid-input, not-found, conflict (follow-up has ended; as many drains as may be), key-reused
 */
export async function addDrainTo(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ drain: string }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { addDrain: body, patientId } }
  const added = await write((tx) =>
    answerOnce(tx, request, stored(now), () => add(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'orders' })
  return added
}

async function add(tx: Tx, staff: StaffMember, patientId: string, body: unknown, now: Date) {
  const { drain, why } = parse('drain', AddedDrain, body)
  const { clinicId } = staff
  const { followUpEndedAt } = await patientOf(tx, clinicId, patientId)
  if (followUpEndedAt !== null)
    throw new Refusal('conflict', 'Follow-up of this patient has ended: go on with follow-up first.')
  const at = stored(now)
  const { rows: drains } = await drainsOf(tx, patientId, at)
  const events = (await staffEventsOf(tx, patientId, at)).rows
  const inPlace = drains.filter(({ id }) => !isRemoved(events.filter(({ drainId }) => drainId === id)))
  if (inPlace.length >= MOST_DRAINS)
    throw new Refusal(
      'conflict',
      `${MOST_DRAINS} drains are in place already, as many as are kept apart here.`,
    )
  refuseFaults(
    drain,
    inPlace.map(({ label }) => label),
    now,
  )

  const ordinal = Math.max(-1, ...drains.map((one) => one.ordinal)) + 1
  const recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  const id = await addOrdered(tx, drain, ordinal, recorded, why)
  await reassess(tx, patientId, now)
  const booked = drain.exchangeBookedFor
  if (booked)
    await bookVisitWithin(
      tx,
      staff,
      patientId,
      { drain: id, kind: 'exchange', state: 'booked', at: booked },
      now,
    )
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'add-drain',
    patientId,
    what: `drain ${id} (${drain.kind}, ${drain.label}), placed ${stored(drain.placedAt)}: ${why}`,
  })
  return { drain: id }
}

function refuseFaults(drain: NewDrain, labels: readonly string[], now: Date): void {
  const faults: Fault[] = [...drainFaults(drain, 'drain'), ...bookingFaults(drain, 'drain', now)]
  if (labels.some((label) => isAlike(label, drain.label)))
    faults.push({ field: 'drain.label', value: drain.label, message: 'accepted: a name of its own' })
  if (Date.parse(drain.placedAt) > now.getTime())
    faults.push({ field: 'drain.placedAt', value: drain.placedAt, message: 'accepted: a time that has come' })
  if (faults.length > 0) throw new Refusal('invalid-input', 'The drain is not as it is accepted.', faults)
}
