import type { StaffMember } from '../../lib/domain/staff.ts'
import { enrol } from '../../lib/intake/index.ts'
import { addClinic } from '../../lib/store/clinics.ts'
import { read, write } from '../../lib/store/index.ts'

export const CLINIC = 'clinic-larkfield'
const START = Date.parse('2026-03-02T08:00:00.000Z')

/** The moment so many hours after eight in the morning (UTC) of an invented day. */
export const at = (hours: number): Date => new Date(START + Math.round(hours * 3_600_000))
export const iso = (hours: number): string => at(hours).toISOString()

const member = (id: string, name: string, role: StaffMember['role'], clinicId = CLINIC): StaffMember =>
  Object.freeze({ id, clinicId, name, email: `${id}@larkfield.example`, role })

export const nurse = member('nurse-a', 'Nora Invented', 'nurse')
export const otherNurse = member('nurse-b', 'Ben Invented', 'nurse')
export const chargeNurse = member('charge', 'Cleo Invented', 'charge-nurse')
export const stranger = member('stranger', 'Sam Elsewhere', 'nurse', 'clinic-elsewhere')

/** Two invented clinics with their staff. */
export async function openClinics(): Promise<void> {
  await write(async (tx) => {
    for (const [id, name] of [
      [CLINIC, 'Larkfield clinic (invented)'],
      ['clinic-elsewhere', 'Elsewhere clinic (invented)'],
    ] as const)
      await addClinic(
        tx,
        { id, name, timeZone: 'America/Denver', phone: '+1 555 0100', afterHoursPhone: null, demo: true },
        at(0),
      )
    for (const { id, clinicId, name, email, role } of [nurse, otherNurse, chargeNurse, stranger])
      await tx.staff.create({ data: { id, clinicId, name, email, role, createdAt: at(0), updatedAt: at(0) } })
  })
}

const drain = {
  kind: 'nephrostomy' as const,
  label: 'left kidney',
  side: 'left' as const,
  placedAt: iso(-24 * 30),
  bagCapacityMl: 600,
  usualMlPerDay: 400,
  plan: { logEveryHours: 24, dressingEveryHours: 48, flush: null },
}
let count = 0

/** The body of an enrolment of an invented adult; `drain` changes their one drain. */
export const enrolment = (change: object = {}, drainChange: object = {}) => ({
  name: `Ada Invented ${++count}`,
  birthDate: '1960-05-17',
  recordNumber: `LF-${String(count).padStart(4, '0')}`,
  timeZone: 'America/Denver',
  drains: [{ ...drain, ...drainChange }],
  ...change,
})

export type Enrolled = { patientId: string; link: string; drain: string }

/** An invented patient in follow-up since so many hours. */
export async function patient(hours = 0, drainChange: object = {}, by = nurse): Promise<Enrolled> {
  const enrolled = await enrol(by, enrolment({}, drainChange), `enrol-${++count}`, at(hours))
  const found = await read((tx) => tx.drain.findFirstOrThrow({ where: { patientId: enrolled.patientId } }))
  return { ...enrolled, drain: found.id }
}

/** What a well patient reports at that hour. */
export const wellReport = (drainId: string, hours: number, volumeMl: number | null = 400) => ({
  readings: [{ drain: drainId, at: iso(hours), volumeMl, appearance: 'clear' as const }],
  dressings: [
    { drain: drainId, at: iso(hours), found: 'clean' as const, skin: 'intact' as const, changed: true },
  ],
  symptoms: {
    at: iso(hours),
    temperatureC: 36.8,
    chills: false,
    pain: 0,
    general: [],
    drains: [{ drain: drainId, position: 'in-place' as const, leak: false, draining: true }],
  },
})
