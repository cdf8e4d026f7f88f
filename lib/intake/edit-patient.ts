import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { EditPatient, type PersonDetails } from '../domain/person.ts'
import { Refusal } from '../domain/problem.ts'
import { profileFaults } from '../domain/profile.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { type Tx, write } from '../store/index.ts'
import { addPatientVersion } from '../store/patient-versions.ts'
import { saveDetails } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/**
 * Changes what is known of a person by adding a version; how it stood before stays. The zone and what is usual
 * weigh on findings, so the patient is assessed anew.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function editPatient(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<{ version: number }> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { details: body, patientId } }
  const edited = await write((tx) =>
    answerOnce(tx, request, stored(now), () => editWithin(tx, staff, patientId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'patient' })
  return edited
}

async function editWithin(tx: Tx, staff: StaffMember, patientId: string, body: unknown, now: Date) {
  const { why, ...wanted } = parse('change', EditPatient, body)
  const faults = (wanted.profile ? profileFaults(wanted.profile) : []).map(({ field, message }) => ({
    field: `profile.${field}`,
    message,
  }))
  if (faults.length > 0) throw new Refusal('invalid-input', 'The change is not as it is accepted.', faults)

  const before = await patientOf(tx, staff.clinicId, patientId)
  const details = changed(before, wanted)
  const at = stored(now)
  const recorded = { clinicId: staff.clinicId, patientId, recordedAt: at, recordedBy: staff.id }
  await saveDetails(tx, patientId, details)
  const version = await addPatientVersion(tx, details, why, recorded)
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'edit-patient',
    patientId,
    what: `details, version ${version} (${Object.keys(wanted).join(', ') || 'nothing changed'}): ${why}`,
  })
  return { version }
}

type Wanted = Omit<EditPatient, 'why'>

/** What was not given stays. The patient is the first contact too: name and number are the same in both places. */
function changed(before: PersonDetails, wanted: Wanted): PersonDetails {
  const kept = <T>(value: T | undefined, earlier: T): T => (value === undefined ? earlier : value)
  const profile = kept(wanted.profile, before.profile)
  const name = kept(wanted.name, before.name)
  const own = wanted.profile?.contacts[0]?.phone
  const phone = kept(wanted.phone, kept(own, before.phone)) || null
  const [self, ...others] = profile?.contacts ?? []
  return {
    name,
    phone,
    timeZone: kept(wanted.timeZone, before.timeZone),
    language: kept(wanted.language, before.language) || null,
    interpreter: kept(wanted.interpreter, before.interpreter),
    usual: kept(wanted.usual, before.usual),
    profile: profile && self ? { ...profile, contacts: [{ ...self, name, phone }, ...others] } : profile,
  }
}
