import type { PatientRecord } from '../domain/record.ts'
import type { SimulatedPatient } from './patient.ts'

/** The record as a clinic would have it at an instant: reports received and staff events recorded by then. */
export function recordAsOf(patient: SimulatedPatient, instant: string): PatientRecord {
  const now = Date.parse(instant)
  return {
    ...patient.enrolment,
    reports: patient.reports.filter((report) => Date.parse(report.receivedAt) <= now),
    staffEvents: patient.staffEvents.filter((event) => Date.parse(event.at) <= now),
  }
}
