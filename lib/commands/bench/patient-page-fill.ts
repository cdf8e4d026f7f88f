import { reassess } from '../../assessment/reassess.ts'
import type { PatientRecord } from '../../domain/record.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { enrolWithin } from '../../intake/enrol.ts'
import { addReports, type NewReport } from '../../store/add-report.ts'
import { drainsOf } from '../../store/drains.ts'
import { write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'

/**
 * Puts an invented patient with all their reports into the store, a table at a time: through the door thousands of
 * reports take minutes. They are assessed once, as the last of them would be at the door.
 * @returns the patient's id
 */
export function storePatient(
  staff: StaffMember,
  record: PatientRecord,
  name: string,
  now: Date,
): Promise<string> {
  const { timeZone, enrolledAt } = record
  const [drain] = record.drains
  if (!drain) throw new Error('bench: a record without a drain')
  const { kind, placedAt, bagCapacityMl, plan } = drain
  const body = {
    ...{ name, birthDate: '1958-03-12', recordNumber: newId().slice(0, 8), timeZone, enrolledAt },
    drains: [{ label: 'left kidney', kind, placedAt, bagCapacityMl, plan }],
  }
  return write(async (tx) => {
    const { patientId } = await enrolWithin(tx, staff, body, new Date(enrolledAt))
    const [kept] = (await drainsOf(tx, patientId, stored(enrolledAt))).rows
    if (!kept) throw new Error('bench: the drain was not stored')
    await addReports(tx, reportsOf(record, { clinicId: staff.clinicId, patientId, drain: kept.id }))
    await reassess(tx, patientId, now)
    return patientId
  })
}

type Own = { clinicId: string; patientId: string; drain: string }

const reportsOf = ({ reports, timeZone }: PatientRecord, own: Own): NewReport[] =>
  reports.map(({ receivedAt: received, readings, flushes, dressings, symptoms }) => {
    const { clinicId, patientId } = own
    const id = newId()
    const receivedAt = stored(received)
    const of = <T extends { drain: string }>(part: T): T => ({ ...part, drain: own.drain })
    return {
      head: {
        ...{ id, clinicId, patientId, receivedAt, timeZone, door: 'import', source: 'bench' },
        ...{ reporter: 'patient', sentBy: null, linkId: null, enteredBy: null, key: id, bodyHash: '' },
        receipt: { receipt: id, report: id, receivedAt, advice: [] } as never,
      },
      says: {
        readings: readings?.map(of),
        flushes: flushes?.map(of),
        dressings: dressings?.map(of),
        symptoms: symptoms ? { ...symptoms, drains: symptoms.drains?.map(of) } : null,
      },
    }
  })

/** The same record so much later: every instant of it is moved. */
export function moved(record: PatientRecord, byMs: number): PatientRecord {
  const instant = /^\d{4}-\d\d-\d\dT/
  const text = JSON.stringify(record, (_, value) =>
    typeof value === 'string' && instant.test(value)
      ? new Date(Date.parse(value) + byMs).toISOString()
      : value,
  )
  return JSON.parse(text)
}
