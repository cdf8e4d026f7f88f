import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type AlikePatient, AlikeQuestion, alikeNames, likeBirthDates } from '../domain/alike.ts'
import type { StaffMember } from '../domain/staff.ts'
import { read, type Tx, write } from '../store/index.ts'
import { patientsBornOn } from '../store/patients.ts'
import { stored } from '../store/rows.ts'
import { parse } from './parse.ts'

/** Patients of a clinic who may be the person of a name and a birth date: found by the birth date's index, never by a walk through the panel. */
export async function alikeWithin(
  tx: Tx,
  clinicId: string,
  name: string,
  birthDate: string,
): Promise<AlikePatient[]> {
  const { rows } = await patientsBornOn(tx, clinicId, likeBirthDates(birthDate))
  return rows.filter((patient) => alikeNames(patient.name, name))
}

/**
 * Who may be the same person as somebody about to be enrolled. Whom the answer names stands in the access record.
 * @throws Refusal invalid-input
 */
export async function readAlike(
  staff: StaffMember,
  body: unknown,
  now: Date = clock(),
): Promise<AlikePatient[]> {
  const { name, birthDate } = parse('question', AlikeQuestion, body)
  const alike = await read((tx) => alikeWithin(tx, staff.clinicId, name, birthDate))
  if (alike.length > 0) await write((tx) => noteAlike(tx, staff, alike, now))
  return alike
}

/** Enters in the access record who was shown as alike. */
export const noteAlike = (
  tx: Tx,
  staff: StaffMember,
  alike: readonly AlikePatient[],
  now: Date,
): Promise<void> =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action: 'find-patients',
    patientId: null,
    what: `shown as alike at enrolment: ${alike.map(({ patientId }) => patientId).join(' ')}`,
  })
