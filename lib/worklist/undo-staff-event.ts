import { recordAccess } from '../access/record.ts'
import { reassessWithout, type Withdrawn } from '../assessment/give-back.ts'
import { refuseSameName } from '../assessment/names-apart.ts'
import { reopenVisits } from '../assessment/reopen-visits.ts'
import { now as clock } from '../clock.ts'
import { UNDO_SECONDS } from '../domain/callback.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { Withdrawal } from '../domain/staff-event.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { type Tx, write } from '../store/index.ts'
import { patientById } from '../store/patients.ts'
import { stored } from '../store/rows.ts'
import { type EventRow, eventRowsOf, isReason, withdrawEvent } from '../store/staff-events.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { isOfClinic } from './patient-of.ts'

export type EventWithdrawn = { event: string; withdrawnAt: string }

/**
 * Takes a recorded event back within its minute: it counts no more, the patient is assessed without it, flags that it
 * ended stand again, visits that it settled are open again. It stays readable. Whoever presses twice has done it once.
 * @throws Refusal not-found, not-allowed (somebody else's), conflict (the minute is over; it came with a call; follow-up
 * has ended since; another drain has the name by now)
 */
export async function undoStaffEvent(
  staff: StaffMember,
  patientId: string,
  eventId: string,
  now: Date = clock(),
): Promise<EventWithdrawn> {
  const undone = await write(async (tx) => {
    const event = await eventOf(tx, staff, patientId, eventId, now)
    if (event.withdrawnAt !== null) return { event: eventId, withdrawnAt: event.withdrawnAt }
    if (event.recordedBy !== staff.id) {
      const by = await nameOf(tx, staff, event.recordedBy)
      throw new Refusal(
        'not-allowed',
        `Only ${by}, who recorded this event, can take it back; you can withdraw it with a reason.`,
      )
    }
    if (now.getTime() - Date.parse(event.recordedAt) >= UNDO_SECONDS * 1000)
      throw new Refusal(
        'conflict',
        'The minute in which an event can be taken back is over: withdraw it with a reason instead.',
      )
    return withdraw(tx, staff, patientId, event, null, now)
  })
  tell(staff.clinicId, { patientId, kind: 'staff-event' })
  return undone
}

/**
 * Withdraws an event that was recorded by mistake, at any time, with a reason: as above, and a further entry says why.
 * @throws Refusal invalid-input, not-found, conflict (it was withdrawn already; it came with a call; follow-up has ended
 * since; another drain has the name by now), key-reused
 */
export async function withdrawStaffEvent(
  staff: StaffMember,
  patientId: string,
  eventId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<EventWithdrawn> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { withdraw: eventId, body } }
  const withdrawn = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const parsed = Withdrawal.safeParse(body)
      if (!parsed.success)
        throw new Refusal(
          'invalid-input',
          'The withdrawal is not as it is accepted.',
          faultsOf(parsed.error, body),
        )
      const event = await eventOf(tx, staff, patientId, eventId, now)
      if (event.withdrawnAt !== null) {
        const by = await nameOf(tx, staff, event.withdrawnBy)
        throw new Refusal('conflict', `${by} has withdrawn this event already.`)
      }
      return withdraw(tx, staff, patientId, event, parsed.data.why, now)
    }),
  )
  tell(staff.clinicId, { patientId, kind: 'staff-event' })
  return withdrawn
}

/** An event of a clinic's patient, withdrawn or not. */
async function eventOf(
  tx: Tx,
  { clinicId }: StaffMember,
  patientId: string,
  id: string,
  now: Date,
): Promise<EventRow> {
  await isOfClinic(tx, clinicId, patientId)
  const { rows } = await eventRowsOf(tx, patientId, stored(now))
  const event = rows.find((one) => one.id === id && !isReason(one))
  if (!event) throw new Refusal('not-found', 'There is no such event of this patient.')
  if (event.callbackId !== null)
    throw new Refusal('conflict', 'This came with a call: take the call back, or correct it.')
  return event
}

async function withdraw(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  event: EventRow,
  why: string | null,
  now: Date,
): Promise<EventWithdrawn> {
  const { clinicId } = staff
  const at = stored(now)
  if (event.type === 'removed' && (await patientById(tx, patientId))?.followUpEndedAt)
    throw new Refusal(
      'conflict',
      'Follow-up has ended since, with this drain taken to be out: go on with follow-up first.',
    )
  const recorded = { clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  await withdrawEvent(tx, event, why, recorded)
  if (event.type === 'removed' && event.drainId !== null)
    await refuseSameName(tx, patientId, event.drainId, at)
  await reopenVisits(tx, event, recorded)
  await reassessWithout(tx, { clinicId, patientId }, stepOf(event, staff, why), now)
  const what = `drain ${event.drainId}: ${event.type} at ${event.at}`
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'staff-event',
    patientId,
    what: why === null ? `took back ${what}` : `withdrew ${what}: ${why}`,
  })
  return { event: event.id, withdrawnAt: at }
}

const stepOf = ({ type, recordedAt }: EventRow, { id }: StaffMember, why: string | null): Withdrawn => ({
  recordedAt,
  by: id,
  kind: why === null ? 'undone' : 'corrected',
  why:
    why === null
      ? `The recorded event (${type}) was taken back within its minute.`
      : `The recorded event (${type}) was withdrawn: ${why}`,
})

const nameOf = async (tx: Tx, { clinicId }: StaffMember, id: string | null): Promise<string> =>
  (id === null ? null : (await staffNamesOf(tx, clinicId)).get(id)) ?? 'Somebody else'
