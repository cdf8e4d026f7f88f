import { now as clock } from '../../clock.ts'
import type { OutcomeSaved } from '../../domain/outcomes-page.ts'
import { NewOutsideEvent } from '../../domain/outside-event.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { tell } from '../../notify/bus.ts'
import { answerOnce } from '../../store/answered.ts'
import { type Tx, write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import { addEventsWithin, patientOf } from './event-within.ts'

/**
 * Records what became of a patient outside the clinic's calls. It moves no flag: what staff did to a drain is a staff event. A death
 * ends follow-up in the same transaction.
 * @throws Refusal not-found, invalid-input, conflict (on record already), key-reused
 */
export async function recordOutsideEvent(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<OutcomeSaved> {
  const saved = await write((tx) => recordOutsideEventWithin(tx, staff, patientId, body, key, now))
  if (saved.endedFollowUp) tell(staff.clinicId, { patientId, kind: 'follow-up' })
  return saved
}

/** The same within the caller's transaction. */
export function recordOutsideEventWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date,
): Promise<OutcomeSaved> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { event: body, patientId } }
  return answerOnce(tx, request, stored(now), async () => {
    const event = parse('event', NewOutsideEvent, body)
    const patient = await patientOf(tx, staff.clinicId, patientId)
    const added = await addEventsWithin(tx, staff, patient, [event], now, (_, field) => field)
    return { ...added, answer: null }
  })
}
