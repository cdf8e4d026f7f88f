import { Refusal } from '../domain/problem.ts'
import type { Tx } from '../store/index.ts'

/**
 * Refuses what is no patient of a clinic, without reading the patient.
 * @throws Refusal not-found
 */
export async function isOfClinic(tx: Tx, clinicId: string, patientId: string): Promise<void> {
  const found = await tx.patient.findUnique({ where: { id: patientId }, select: { clinicId: true } })
  if (found?.clinicId !== clinicId) throw new Refusal('not-found', 'There is no such patient in this clinic.')
}
