import type { AlikePatient } from '../domain/alike.ts'
import type { Enrolment, NewDrain } from '../domain/enrolment.ts'
import { fullDate } from '../domain/local-time.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import { profileFaults } from '../domain/profile.ts'
import type { StaffMember } from '../domain/staff.ts'
import { overrideFaults } from '../rules/thresholds.ts'
import { dischargeById } from '../store/discharges.ts'
import type { Tx } from '../store/index.ts'
import { patientByRecordNumber } from '../store/patients.ts'
import { alikeWithin } from './alike.ts'

/** Youngest person that the rules are made for, in years. */
const ADULT_YEARS = 18

/** Refuses for the sake of others who may be the same person; `alike` is whom it names. */
export class AlikeRefusal extends Refusal {
  constructor(readonly alike: readonly AlikePatient[]) {
    super(
      'conflict',
      'A patient with a like name and birth date is here already. Look whether it is the same person.',
      alike.map(({ patientId, name, birthDate, recordNumber }) => ({
        field: 'notSameAs',
        value: patientId,
        message: `${name}, born ${fullDate(birthDate)}, ${recordNumber}; accepted: this id, once it is known to be another person`,
      })),
    )
  }
}

/**
 * Refuses an enrolment for what no single field tells: a child, a threshold out of its range, a record number that
 * is taken, somebody alike who was not looked at.
 * @throws Refusal invalid-input, conflict
 */
export async function refuseUnfit(
  tx: Tx,
  { clinicId }: StaffMember,
  person: Enrolment,
  now: Date,
): Promise<void> {
  const { name, birthDate, recordNumber, profile, discharge, notSameAs = [] } = person
  refuseFaults([
    ...ageFaults(birthDate, now),
    ...(profile ? profileFaults(profile) : []).map(({ field, message }) => ({
      field: `profile.${field}`,
      message,
    })),
    ...person.drains.flatMap((drain, i) => drainFaults(drain, `drains[${i}]`)),
    ...person.drains.flatMap((drain, i) => bookingFaults(drain, `drains[${i}]`, now)),
    ...(discharge && !(await dischargeById(tx, clinicId, discharge))
      ? [{ field: 'discharge', value: discharge, message: 'is not on the list of discharges; leave it out' }]
      : []),
  ])
  if (await patientByRecordNumber(tx, clinicId, recordNumber))
    throw new Refusal('conflict', 'A patient with this record number is enrolled already.', [
      {
        field: 'recordNumber',
        value: recordNumber,
        message: 'is taken; accepted: a record number that no patient of this clinic has',
      },
    ])
  const looked = new Set(notSameAs)
  const alike = (await alikeWithin(tx, clinicId, name, birthDate)).filter(
    ({ patientId }) => !looked.has(patientId),
  )
  if (alike.length > 0) throw new AlikeRefusal(alike)
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

export const bookingFaults = ({ exchangeBookedFor }: NewDrain, path: string, now: Date): Fault[] =>
  exchangeBookedFor && Date.parse(exchangeBookedFor) <= now.getTime()
    ? [
        {
          field: `${path}.exchangeBookedFor`,
          value: exchangeBookedFor,
          message: 'accepted: a time ahead',
        },
      ]
    : []

export const drainFaults = (drain: NewDrain, path: string): Fault[] =>
  overrideFaults(drain.plan.overrides ?? {}).map(({ name, message }) => ({
    field: `${path}.plan.overrides.${name}`,
    value: drain.plan.overrides?.[name as keyof NonNullable<NewDrain['plan']['overrides']>],
    message,
  }))

function refuseFaults(faults: Fault[]): void {
  if (faults.length > 0) throw new Refusal('invalid-input', 'The enrolment is not as it is accepted.', faults)
}
