import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { Enrolment, type NewDrain } from '../domain/enrolment.ts'
import type { PersonDetails } from '../domain/person.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addPlan } from '../store/care-plans.ts'
import { settleByRecordNumber, settleDischarge } from '../store/discharges.ts'
import { addDrain, type Recorded } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { addPatientVersion } from '../store/patient-versions.ts'
import { addPatient } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { noteAlike } from './alike.ts'
import { AlikeRefusal, refuseUnfit } from './enrol-faults.ts'
import { addNewLink } from './links.ts'
import { overrideLog } from './override-log.ts'
import { parse } from './parse.ts'
import { bookVisitWithin } from './visits.ts'

/** `link` is the path of the check-in page with the token in its fragment; it is shown once and kept nowhere. */
export type Enrolled = { patientId: string; link: string }

/**
 * Takes a patient into follow-up: person, drains with their orders, and the personal link.
 * @throws Refusal invalid-input, conflict (the record number is taken, or somebody is alike), key-reused
 */
export async function enrol(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<Enrolled> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { enrol: body } }
  const enrolled = await write((tx) =>
    answerOnce(tx, request, stored(now), () => enrolWithin(tx, staff, body, now)),
  ).catch(async (error: unknown) => {
    // What was refused is undone, and with it the note of whom the refusal shows.
    if (error instanceof AlikeRefusal) await write((tx) => noteAlike(tx, staff, error.alike, now))
    throw error
  })
  tell(staff.clinicId, { patientId: enrolled.patientId, kind: 'enrolled' })
  return enrolled
}

/** The same within a transaction of the caller's. */
export async function enrolWithin(tx: Tx, staff: StaffMember, body: unknown, now: Date): Promise<Enrolled> {
  const person = parse('enrolment', Enrolment, body)
  await refuseUnfit(tx, staff, person, now)

  const { clinicId } = staff
  const patientId = newId()
  const recordedAt = stored(now)
  const recorded: Recorded = { clinicId, patientId, recordedAt, recordedBy: staff.id }
  const { birthDate, recordNumber, enrolledAt, drains } = person
  const details = detailsOf(person)
  await addPatient(
    tx,
    {
      ...details,
      id: patientId,
      clinicId,
      birthDate,
      recordNumber,
      enrolledAt: stored(enrolledAt ?? now),
      followUpEndedAt: null,
      followUpEnd: null,
    },
    recordedAt,
    staff.id,
  )
  await addPatientVersion(tx, details, 'as enrolled', recorded)
  const booked: { drain: string; at: string }[] = []
  for (const [ordinal, drain] of drains.entries()) {
    const id = await addOrdered(tx, drain, ordinal, recorded)
    if (drain.exchangeBookedFor) booked.push({ drain: id, at: drain.exchangeBookedFor })
  }
  const link = await addNewLink(tx, { clinicId, patientId, by: staff.id, now })
  await reassess(tx, patientId, now)
  for (const { drain, at } of booked)
    await bookVisitWithin(tx, staff, patientId, { drain, kind: 'exchange', state: 'booked', at }, now)

  const settling = { settledAt: recordedAt, settledBy: staff.id, settledWhy: null, patientId }
  if (person.discharge) await settleDischarge(tx, person.discharge, settling)
  await settleByRecordNumber(tx, clinicId, recordNumber, settling)
  await recordAccess(tx, {
    clinicId,
    at: recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action: 'enrol',
    patientId,
    what: enrolledInWords(person),
  })
  return { patientId, link }
}

/** Where only a list of contacts was given, the patient's own number is the first one's. */
const detailsOf = (person: Enrolment): PersonDetails => ({
  name: person.name,
  phone: person.phone || person.profile?.contacts[0]?.phone || null,
  timeZone: person.timeZone,
  language: person.language || null,
  interpreter: person.interpreter ?? false,
  usual: person.usual ?? null,
  profile: person.profile ?? null,
})

function enrolledInWords({ drains, notSameAs = [] }: Enrolment): string {
  const text = `enrolled with ${drains.length} drain${drains.length === 1 ? '' : 's'}, and a link`
  return notSameAs.length > 0 ? `${text}; looked at and not the same person: ${notSameAs.join(' ')}` : text
}

/** Stores a drain with its first orders. Gives its id. */
export async function addOrdered(
  tx: Tx,
  drain: NewDrain,
  ordinal: number,
  recorded: Recorded,
  why = 'as ordered at enrolment',
): Promise<string> {
  const id = newId()
  const { plan, cappedAt, placedAt } = drain
  await addDrain(
    tx,
    {
      id,
      ordinal,
      label: drain.label,
      kind: drain.kind,
      side: drain.side ?? null,
      frenchSize: drain.frenchSize ?? null,
      lengthMarkCm: drain.lengthMarkCm ?? null,
      placedAt: stored(placedAt),
      cappedAt: cappedAt ? stored(cappedAt) : null,
      onlyKidney: drain.onlyKidney ?? false,
      usualMlPerDay: drain.usualMlPerDay ?? null,
      usualAppearance: drain.usualAppearance ?? null,
    },
    recorded,
  )
  await addPlan(
    tx,
    {
      drainId: id,
      version: 1,
      validFrom: recorded.recordedAt,
      why,
      course: drain.course ?? null,
      drainage: drain.drainage ?? null,
      bagCapacityMl: drain.bagCapacityMl ?? null,
      markMl: drain.markMl ?? null,
      vessel: drain.vessel ?? null,
      flushAt: drain.flushAt ?? null,
      dressingType: drain.dressingType ?? null,
      removalPlan: drain.removalPlan ?? null,
      logEveryHours: plan.logEveryHours,
      dressingEveryHours: plan.dressingEveryHours,
      flushVolumeMl: plan.flush?.volumeMl ?? null,
      flushEveryHours: plan.flush?.everyHours ?? null,
      exchangeEveryDays: plan.exchangeEveryDays ?? null,
      overrides: overrideLog(null, plan.overrides, { by: recorded.recordedBy, at: recorded.recordedAt, why }),
    },
    recorded,
  )
  return id
}
