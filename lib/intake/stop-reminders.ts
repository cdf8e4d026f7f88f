import { recordAccess } from '../access/record.ts'
import { authSecret } from '../access/secret.ts'
import { now as clock } from '../clock.ts'
import type { Language } from '../domain/languages.ts'
import type { PersonDetails } from '../domain/person.ts'
import { Refusal } from '../domain/problem.ts'
import { emptyProfile } from '../domain/profile.ts'
import { tell } from '../notify/bus.ts'
import { type Channel, readStopToken } from '../notify/stop-token.ts'
import { clinicById } from '../store/clinics.ts'
import { read, type Tx, write } from '../store/index.ts'
import { addPatientVersion } from '../store/patient-versions.ts'
import { type Patient, patientById, saveDetails } from '../store/patients.ts'
import { setNextReminder } from '../store/reminders.ts'
import { stored } from '../store/rows.ts'

/** What the page of a stop link shows: nothing of the person but their language. */
export type StopView = { language: Language; clinicPhone: string; stopped: boolean }

const BY = 'stop link'

/** How things stand for whoever holds a stop link; null where we did not make it. Changes nothing. */
export const stopView = (token: string): Promise<StopView | null> => read((tx) => viewWithin(tx, token))

async function viewWithin(tx: Tx, token: string): Promise<StopView | null> {
  const found = await patientOfToken(tx, token)
  if (!found) return null
  const { patient, channel } = found
  const clinic = await clinicById(tx, patient.clinicId)
  return {
    language: patient.profile?.checkInLanguage ?? emptyProfile.checkInLanguage,
    clinicPhone: clinic?.phone ?? '',
    stopped: !isOn(patient, channel),
  }
}

/**
 * Stops the reminders of the channel that the link belongs to, as a new version of the person's details that
 * staff see and may undo. Once or often, the outcome is the same.
 * @throws Refusal link-not-valid
 */
export async function stopReminders(token: string, now: Date = clock()): Promise<void> {
  const stopped = await write(async (tx) => {
    const found = await patientOfToken(tx, token)
    if (!found) throw new Refusal('link-not-valid', 'This link stops nothing: it is not one of ours.')
    const { patient, channel } = found
    if (!isOn(patient, channel)) return null
    await stopWithin(tx, patient, channel, now)
    return patient
  })
  if (stopped) tell(stopped.clinicId, { patientId: stopped.id, kind: 'patient' })
}

const isOn = ({ profile }: Patient, channel: Channel) => profile?.reminders.channel === channel

async function patientOfToken(tx: Tx, token: string): Promise<{ patient: Patient; channel: Channel } | null> {
  const read = readStopToken(authSecret(), token)
  const patient = read && (await patientById(tx, read.patientId))
  return patient ? { patient, channel: read.channel } : null
}

async function stopWithin(tx: Tx, patient: Patient, channel: Channel, now: Date): Promise<void> {
  const { id, clinicId, name, phone, timeZone, language, interpreter, usual } = patient
  const profile = patient.profile ?? emptyProfile
  const details: PersonDetails = {
    name,
    phone,
    timeZone,
    language,
    interpreter,
    usual,
    profile: { ...profile, reminders: { ...profile.reminders, channel: 'none' } },
  }
  const at = stored(now)
  const way = channel === 'email' ? 'e-mail' : 'text message'
  await saveDetails(tx, id, details)
  await addPatientVersion(tx, details, `reminders by ${way} stopped by the link in one`, {
    clinicId,
    patientId: id,
    recordedAt: at,
    recordedBy: BY,
  })
  await setNextReminder(tx, id, null)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: null,
    actor: BY,
    action: 'stop-reminders',
    patientId: id,
    what: `reminders by ${way} stopped by the link in one`,
  })
}
