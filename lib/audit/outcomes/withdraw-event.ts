import { now as clock } from '../../clock.ts'
import { WithdrawEvent } from '../../domain/outcomes-page.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { answerOnce } from '../../store/answered.ts'
import { write } from '../../store/index.ts'
import { outsideEventById, withdrawEvent } from '../../store/outside-events.ts'
import { newId, stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import { note, patientOf } from './event-within.ts'

/**
 * An event no longer counts, for a reason. It stays readable. A question that was answered by this event alone is asked again.
 * Follow-up that ended with a death stays ended: two people take the patient back, by its own door.
 * @throws Refusal not-found, invalid-input, conflict (withdrawn already), key-reused
 */
export function withdrawOutsideEvent(
  staff: StaffMember,
  patientId: string,
  eventId: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<{ event: string }> {
  const { clinicId } = staff
  const at = stored(now)
  const request = { clinicId, source: staff.id, key, body: { withdraw: body, patientId, eventId } }
  return write((tx) =>
    answerOnce(tx, request, at, async () => {
      const { why } = parse('withdrawal', WithdrawEvent, body)
      await patientOf(tx, clinicId, patientId)
      const event = await outsideEventById(tx, patientId, eventId)
      if (!event) throw new Refusal('not-found', 'This patient has no such event.')
      if (!(await withdrawEvent(tx, eventId, at, staff.id, why)))
        throw new Refusal('conflict', 'This event was withdrawn already.')
      await note(tx, staff, patientId, at, `withdrew the outside event ${eventId} (${event.kind}): ${why}`)
      return { event: eventId }
    }),
  )
}
