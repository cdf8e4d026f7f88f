import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { Enrolment, type NewDrain } from '../domain/enrolment.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { overrideFaults } from '../rules/thresholds.ts'
import { answerOnce } from '../store/answered.ts'
import { addPlan } from '../store/care-plans.ts'
import { addDrain, type Recorded } from '../store/drains.ts'
import { type Tx, write } from '../store/index.ts'
import { addPatient, patientByRecordNumber } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { addNewLink } from './links.ts'
import { overrideLog } from './override-log.ts'
import { parse } from './parse.ts'

/** Youngest person that the rules are made for, in years. */
const ADULT_YEARS = 18

/** `link` is the path of the check-in page with the token in its fragment; it is shown once and kept nowhere. */
export type Enrolled = { patientId: string; link: string }

/**
 * Takes a patient into follow-up: person, drains with their orders, and the personal link.
 * @throws Refusal invalid-input, conflict (the record number is taken), key-reused
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
  )
  tell(staff.clinicId, { patientId: enrolled.patientId, kind: 'enrolled' })
  return enrolled
}

/** The same within a transaction of the caller's. */
export async function enrolWithin(tx: Tx, staff: StaffMember, body: unknown, now: Date): Promise<Enrolled> {
  const person = parse('enrolment', Enrolment, body)
  refuseFaults([...ageFaults(person.birthDate, now), ...person.drains.flatMap(drainFaults)])
  const { clinicId } = staff
  if (await patientByRecordNumber(tx, clinicId, person.recordNumber))
    throw new Refusal('conflict', 'A patient with this record number is enrolled already.', [
      {
        field: 'recordNumber',
        value: person.recordNumber,
        message: 'is taken; accepted: a record number that no patient of this clinic has',
      },
    ])

  const patientId = newId()
  const recordedAt = stored(now)
  const recorded: Recorded = { clinicId, patientId, recordedAt, recordedBy: staff.id }
  const { drains, enrolledAt, notSameAs: _looked, discharge: _discharge, ...rest } = person
  await addPatient(
    tx,
    {
      ...rest,
      id: patientId,
      clinicId,
      phone: rest.phone || null,
      language: rest.language || null,
      interpreter: rest.interpreter ?? false,
      usual: rest.usual ?? null,
      enrolledAt: stored(enrolledAt ?? now),
      profile: rest.profile ?? null,
      followUpEndedAt: null,
      followUpEnd: null,
    },
    recordedAt,
    staff.id,
  )
  for (const [ordinal, drain] of drains.entries()) await addOrdered(tx, drain, ordinal, recorded)
  const link = await addNewLink(tx, { clinicId, patientId, by: staff.id, now })
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId,
    at: recordedAt,
    staffId: staff.id,
    actor: staff.name,
    action: 'enrol',
    patientId,
    what: `enrolled with ${drains.length} drain${drains.length === 1 ? '' : 's'}, and a link`,
  })
  return { patientId, link }
}

async function addOrdered(tx: Tx, drain: NewDrain, ordinal: number, recorded: Recorded): Promise<void> {
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
  const why = 'as ordered at enrolment'
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
}

function ageFaults(birthDate: string, now: Date): Fault[] {
  const [year = 0, month = 1, day = 1] = birthDate.split('-').map(Number)
  const comesOfAge = Date.UTC(year + ADULT_YEARS, month - 1, day)
  if (comesOfAge <= now.getTime() && year > 1890) return []
  return [
    {
      field: 'birthDate',
      value: birthDate,
      message: `accepted: the birth date of an adult, ${ADULT_YEARS} years or older`,
    },
  ]
}

const drainFaults = (drain: NewDrain, i: number): Fault[] =>
  overrideFaults(drain.plan.overrides ?? {}).map(({ name, message }) => ({
    field: `drains[${i}].plan.overrides.${name}`,
    value: drain.plan.overrides?.[name as keyof NonNullable<NewDrain['plan']['overrides']>],
    message,
  }))

function refuseFaults(faults: Fault[]): void {
  if (faults.length > 0) throw new Refusal('invalid-input', 'The enrolment is not as it is accepted.', faults)
}
