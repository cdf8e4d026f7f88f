import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import { newSecret, sha256 } from '../store/hashes.ts'
import { read, write } from '../store/index.ts'
import { patientById, patientByRecordNumber } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { addSystem, type SendingSystem, systemByHash } from '../store/systems.ts'

/** The sending system of a key, or null. The store keeps the key's hash alone. */
export const systemByKey = (apiKey: string): Promise<SendingSystem | null> =>
  read((tx) => systemByHash(tx, sha256(apiKey)))

/** Admits a sending system. Its key is shown once. */
export async function admitSystem(
  clinicId: string,
  name: string,
  by: string,
  now: Date = clock(),
): Promise<{ id: string; key: string }> {
  const id = newId()
  const key = newSecret()
  await write((tx) =>
    addSystem(tx, { id, clinicId, name, keyHash: sha256(key), recordedAt: stored(now), recordedBy: by }),
  )
  return { id, key }
}

/**
 * The id of the patient that a sending system means, by our id or by the record number of the chart.
 * @throws Refusal invalid-input
 */
export async function patientForSystem(system: SendingSystem, reference: string): Promise<string> {
  const found = await read(async (tx) => {
    const byId = await patientById(tx, reference)
    return byId?.clinicId === system.clinicId ? byId : patientByRecordNumber(tx, system.clinicId, reference)
  })
  if (found) return found.id
  throw new Refusal('invalid-input', 'The report names no patient of this clinic.', [
    {
      field: 'patient',
      value: reference,
      message: 'names no patient of this clinic; accepted: a patient id or a record number',
    },
  ])
}
