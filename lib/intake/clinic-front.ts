import { now as clock } from '../clock.ts'
import type { ClinicHours } from '../domain/clinic-hours.ts'
import { type Clinic, clinicById } from '../store/clinics.ts'
import { read } from '../store/index.ts'
import { checkInSession } from './open-link.ts'

/** What a clinic says of itself to whoever asks: its name, whom to call, and when somebody reads reports. */
export type ClinicFront = {
  id: string
  name: string
  phone: string
  afterHoursPhone: string | null
  timeZone: string
  hours: ClinicHours | null
  demo: boolean
}

/** The front of a clinic; null where there is no such clinic. */
export async function clinicFront(clinicId: string): Promise<ClinicFront | null> {
  const clinic = await read((tx) => clinicById(tx, clinicId))
  return clinic && frontOf(clinic)
}

/** The front of the clinic whose link this session was opened with; null where the session is over. */
export async function clinicOfSession(session: string, now: Date = clock()): Promise<ClinicFront | null> {
  const found = await checkInSession(session, now).catch(() => null)
  return found && clinicFront(found.clinicId)
}

const frontOf = ({ id, name, phone, afterHoursPhone, timeZone, hours, demo }: Clinic): ClinicFront => ({
  id,
  name,
  phone,
  afterHoursPhone,
  timeZone,
  hours,
  demo,
})
