import { Refusal } from '../domain/problem.ts'
import type { Tx } from '../store/index.ts'
import { type Patient, patientById } from '../store/patients.ts'

/** Another clinic's patient and none at all answer alike. */
export const noPatient = () => new Refusal('not-found', 'There is no such patient in this clinic.')

/**
 * A patient of a clinic.
 * @throws Refusal not-found
 */
export async function patientOf(tx: Tx, clinicId: string, patientId: string): Promise<Patient> {
  const patient = await patientById(tx, patientId)
  if (patient?.clinicId !== clinicId) throw noPatient()
  return patient
}
