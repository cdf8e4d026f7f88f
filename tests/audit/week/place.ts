import { expect } from 'vitest'
import { saveReview } from '../../../lib/audit/week/index.ts'
import type { Refusal } from '../../../lib/domain/problem.ts'
import type { StaffMember } from '../../../lib/domain/staff.ts'
import { receiveReport } from '../../../lib/intake/index.ts'
import { write } from '../../../lib/store/index.ts'
import { sweep } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, patient, wellReport } from '../../store/clinic.ts'

const doctor = (id: string, name: string): StaffMember => ({
  id,
  clinicId: CLINIC,
  name,
  email: `${id}@larkfield.example`,
  role: 'physician',
})
export const pia = doctor('pia', 'Pia Invented')
export const tom = doctor('tom', 'Tom Invented')
export const eva = doctor('eva', 'Eva Invented')

export const hire = (...staff: StaffMember[]) =>
  write(async (tx) => {
    for (const { id, clinicId, name, email, role } of staff)
      await tx.staff.create({ data: { id, clinicId, name, email, role, createdAt: at(0), updatedAt: at(0) } })
  })

/** The week in which hour 0 lies, a Monday 01:00 in Denver; from this hour on it is over. */
export const WEEK = '2026-03-02'
export const OVER = 7 * 24

let count = 0
export const key = () => `key-${++count}`

export const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: key(), body },
    at(hours),
  )

/** A patient who reports that all is well at 09:00 (Denver) of every day of the week, from before it on. */
export async function wellPatient() {
  const { patientId, drain } = await patient(-72)
  for (const hours of [-64, -40, -16, 8, 32, 56, 80, 104, 128, 152, 176, 200]) {
    await send(patientId, hours, wellReport(drain, hours))
    await sweep(at(hours))
  }
  return { patientId, drain }
}

/** The same, and on Wednesday with chills: a flag within 1 hour, which nobody closes. */
export async function shiveringPatient(hours = 59) {
  const { patientId, drain } = await patient(-72)
  for (const day of [-64, -40, -16, 8, 32, 56]) await send(patientId, day, wellReport(drain, day))
  await send(patientId, hours, {
    symptoms: { at: iso(hours), temperatureC: 37.9, chills: true, pain: 2, general: [], drains: [] },
    note: 'I am cold and shake (invented).',
  })
  return { patientId, drain }
}

export const refusal = (work: Promise<unknown>): Promise<Refusal> =>
  work.then(
    () => expect.unreachable('it was not refused'),
    (error) => error,
  )

/** A verdict on an item at an hour. */
export const judge = (
  staff: StaffMember,
  item: string,
  reading: number,
  verdict: string,
  hours: number,
  change: object = {},
) => saveReview(staff, { item, reading, verdict, harm: 'none', ...change }, key(), at(hours))
