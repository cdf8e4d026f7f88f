import { recordAccess } from '../../access/record.ts'
import { endForDeath } from '../../assessment/end-follow-up.ts'
import type { OutcomeSaved } from '../../domain/outcomes-page.ts'
import type { NewOutsideEvent } from '../../domain/outside-event.ts'
import { whyNotAt } from '../../domain/outside-event-file.ts'
import type { Fault } from '../../domain/problem.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { drainsOf } from '../../store/drains.ts'
import type { Tx } from '../../store/index.ts'
import { addOutsideEvents, knownEvents, type NewEvent, sameEvent } from '../../store/outside-events.ts'
import { type Patient, patientById } from '../../store/patients.ts'
import { newId, stored } from '../../store/rows.ts'

/** Another clinic's patient and none at all answer alike. @throws Refusal not-found */
export async function patientOf(tx: Tx, clinicId: string, patientId: string): Promise<Patient> {
  const patient = await patientById(tx, patientId)
  if (patient?.clinicId !== clinicId)
    throw new Refusal('not-found', 'There is no such patient in this clinic.')
  return patient
}

/**
 * Stores events that staff tell of one patient, within the caller's transaction; all or none. A death among them ends follow-up, if
 * it goes on.
 * @param fieldOf names the fields of one of them in a fault
 * @throws Refusal invalid-input (before enrolment, in the future, no such drain), conflict (on record already)
 */
export async function addEventsWithin(
  tx: Tx,
  staff: StaffMember,
  patient: Patient,
  told: readonly NewOutsideEvent[],
  now: Date,
  fieldOf: (i: number, field: string) => string,
): Promise<Pick<OutcomeSaved, 'events' | 'endedFollowUp'>> {
  const at = stored(now)
  const { rows: drains } = await drainsOf(tx, patient.id, at)
  const faults: Fault[] = []
  for (const [i, event] of told.entries()) {
    const drain = drains.find(({ id }) => id === event.drain)
    if (event.drain && !drain)
      faults.push({
        field: fieldOf(i, 'drain'),
        value: event.drain,
        message: `names no drain of this patient; accepted: ${drains.map(({ id, label }) => `${id} (${label})`).join(', ')}`,
      })
    const { enrolledAt } = patient
    const placedAt = drain?.placedAt ?? null
    const why = whyNotAt(Date.parse(event.at), { enrolledAt, placedAt, nowMs: now.getTime() })
    if (why !== null) faults.push({ field: fieldOf(i, 'at'), value: event.at, message: why })
  }
  if (faults.length > 0) throw new Refusal('invalid-input', 'The event is not as it is accepted.', faults)

  const rows = told.map(
    (event): NewEvent => ({
      id: newId(),
      clinicId: staff.clinicId,
      patientId: patient.id,
      drainId: event.drain || null,
      kind: event.kind,
      at: stored(event.at),
      source: 'staff',
      note: event.note || null,
      recordedAt: at,
      recordedBy: staff.id,
    }),
  )
  const known = await knownEvents(tx, [patient.id])
  for (const row of rows) {
    if (known.has(sameEvent(row)))
      throw new Refusal('conflict', 'An event of this kind at this time is on record already.')
    known.add(sameEvent(row))
  }
  await addOutsideEvents(tx, rows)
  for (const { kind, at: when } of rows)
    await note(tx, staff, patient.id, at, `recorded an outside event: ${kind} at ${when}`)
  const recorded = { clinicId: staff.clinicId, patientId: patient.id, recordedAt: at, recordedBy: staff.id }
  const endedFollowUp = rows.some(({ kind }) => kind === 'death') && (await endForDeath(tx, recorded))
  if (endedFollowUp)
    await note(tx, staff, patient.id, at, 'follow-up ended: died, by an outside event', 'end-follow-up')
  return { events: rows.map(({ id }) => id), ...(endedFollowUp ? { endedFollowUp } : {}) }
}

/** What staff did here, in the access record. */
export const note = (
  tx: Tx,
  staff: StaffMember,
  patientId: string | null,
  at: string,
  what: string,
  action = 'record-outside-event',
) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action,
    patientId,
    what,
  })
