import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { tell } from '../notify/bus.ts'
import { read, write } from '../store/index.ts'
import { dropLease, takeLease } from '../store/leases.ts'
import { duePatients, postpone } from '../store/patient-states.ts'
import { newId } from '../store/rows.ts'

/** Patients of one round, and how long the lease holds: it is renewed with each round. */
const ROUND = 50
const LEASE_MS = 60_000
const LEASE = 'sweep'

const holder = newId()

export type Swept = { assessed: number; failed: number; errors: { patientId: string; error: unknown }[] }

const NONE: Swept = { assessed: 0, failed: 0, errors: [] }

/**
 * Assesses the patients whose next check has come, and those only. One that fails is noted on its row, named on
 * the worklist and tried again later; it stops no other. A lease keeps a second process from sweeping at the
 * same time; what a killed sweep left undone is due still.
 */
export async function sweep(now: Date): Promise<Swept> {
  if ((await read((tx) => duePatients(tx, now, 1))).length === 0) return NONE
  if (!(await write((tx) => takeLease(tx, LEASE, holder, clock(), LEASE_MS)))) return NONE
  const swept: Swept = { ...NONE, errors: [] }
  try {
    for (;;) {
      const due = await read((tx) => duePatients(tx, now, ROUND))
      if (due.length === 0) return swept
      for (const { patientId, clinicId } of due) await assessOne(patientId, clinicId, now, swept)
      if (!(await write((tx) => takeLease(tx, LEASE, holder, clock(), LEASE_MS)))) return swept
    }
  } finally {
    await write((tx) => dropLease(tx, LEASE, holder))
  }
}

async function assessOne(patientId: string, clinicId: string, now: Date, swept: Swept): Promise<void> {
  try {
    await write((tx) => reassess(tx, patientId, now))
    swept.assessed += 1
  } catch (error) {
    swept.failed += 1
    swept.errors.push({ patientId, error })
    await write((tx) => postpone(tx, patientId, now, error instanceof Error ? error.message : String(error)))
  }
  tell(clinicId, { patientId, kind: 'time' })
}
