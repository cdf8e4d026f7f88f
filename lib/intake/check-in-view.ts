import { now as clock } from '../clock.ts'
import type { CheckInView } from '../domain/check-in.ts'
import { clinicById } from '../store/clinics.ts'
import { snapshot } from '../store/index.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { checkInDrains } from './check-in-drains.ts'
import { checkInSession } from './links.ts'
import { noPatient } from './patient-of.ts'

/**
 * What the check-in page shows to whoever holds a session of a patient's link: little, and nothing of staff.
 * @throws Refusal link-not-valid
 */
export async function checkInView(session: string, now: Date = clock()): Promise<CheckInView> {
  const { clinicId, patientId } = await checkInSession(session, now)
  return snapshot(async (tx) => {
    const composed = await composeRecord(tx, patientId, now)
    const clinic = await clinicById(tx, clinicId)
    if (!clinic || !composed) throw noPatient()
    const { patient, reports } = composed
    const { name, phone, afterHoursPhone, demo } = clinic
    return {
      asOf: stored(now),
      clinic: { name, phone, afterHoursPhone, demo },
      patient: { id: patientId, firstName: firstName(patient.name), timeZone: patient.timeZone },
      drains: checkInDrains(composed, now),
      lastReportAt: reports.at(-1)?.receivedAt ?? null,
    }
  })
}

/** Of `Marlow, Ada` and of `Ada Marlow` alike: Ada. */
const firstName = (name: string): string => {
  const given = name.includes(',') ? (name.split(',')[1] ?? name) : name
  return given.trim().split(/\s+/)[0] ?? name
}
