import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type Discharge, type DischargeList, NewDischarge, SetAside } from '../domain/discharge.ts'
import { daysBetween, localDate } from '../domain/local-time.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { answerOnce } from '../store/answered.ts'
import { clinicById } from '../store/clinics.ts'
import {
  addDischarge,
  dischargeById,
  isListed,
  type StoredDischarge,
  settleDischarge,
  settledDischarges,
  waitingCount,
  waitingDischarges,
} from '../store/discharges.ts'
import { read, snapshot, type Tx, write } from '../store/index.ts'
import { patientByRecordNumber } from '../store/patients.ts'
import { newId, stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { parse } from './parse.ts'

/** Most of those that no longer wait that are shown. */
const SETTLED_SHOWN = 20

/** How many wait to be enrolled. */
export const countWaiting = ({ clinicId }: StaffMember): Promise<number> =>
  read((tx) => waitingCount(tx, clinicId))

/** Who went home with a drain and is not enrolled yet, the longest waiting first. Whom it shows stands in the access record. */
export async function readDischarges(staff: StaffMember, now: Date = clock()): Promise<DischargeList> {
  const { clinicId } = staff
  const found = await snapshot(async (tx) => ({
    today: await todayAt(tx, clinicId, now),
    waiting: await waitingDischarges(tx, clinicId),
    settled: await settledDischarges(tx, clinicId, SETTLED_SHOWN),
    names: await staffNamesOf(tx, clinicId),
  }))
  const { today, names } = found
  const waiting = found.waiting.rows.map((row) => ({
    ...plain(row),
    days: Math.max(0, daysBetween(row.dischargedAt, today)),
    formerPatientId: row.formerPatientId,
  }))
  if (waiting.length > 0)
    await write((tx) => noteDischarges(tx, staff, now, `saw on the list of discharges: ${idsOf(waiting)}`))
  return {
    asOf: stored(now),
    waiting,
    settled: found.settled.rows.map((row) => ({
      ...plain(row),
      settledAt: row.settledAt ?? '',
      by: row.settledBy ? (names.get(row.settledBy) ?? row.settledBy) : null,
      why: row.settledWhy,
      patientId: row.patientId,
    })),
  }
}

/**
 * One who waits, for the form of enrolment; null where nobody of that id does.
 */
export async function waitingDischarge(
  staff: StaffMember,
  id: string,
  now: Date = clock(),
): Promise<Omit<Discharge, 'days' | 'formerPatientId'> | null> {
  const found = await read((tx) => dischargeById(tx, staff.clinicId, id))
  if (!found || found.settledAt !== null) return null
  await write((tx) => noteDischarges(tx, staff, now, `opened to enrol: discharge ${id}`))
  return plain(found)
}

/**
 * Puts somebody on the list; one who is on it for that day, or is in follow-up, is not put there again.
 * @throws Refusal invalid-input, conflict, key-reused
 */
export async function addToDischarges(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ id: string }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { discharge: body } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const discharge = parse('discharge', NewDischarge, body)
      const faults = dayFaults(discharge, await todayAt(tx, clinicId, now))
      if (faults.length > 0)
        throw new Refusal('invalid-input', 'The discharge is not as it is accepted.', faults)
      const { recordNumber, dischargedOn } = discharge
      if (await isListed(tx, clinicId, recordNumber, dischargedOn))
        throw new Refusal('conflict', 'This record number stands on the list with this day already.')
      if (await isEnrolled(tx, clinicId, recordNumber))
        throw new Refusal('conflict', 'A patient with this record number is in follow-up already.')
      const id = await putOnList(tx, staff, discharge, now)
      await noteDischarges(tx, staff, now, `put on the list of discharges: ${id}`)
      return { id }
    }),
  )
}

/**
 * Takes somebody off the list without enrolling them, for a reason.
 * @throws Refusal invalid-input, not-found, conflict (no longer waiting), key-reused
 */
export async function setAsideDischarge(
  staff: StaffMember,
  id: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<{ id: string }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { setAside: body, id } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const { why } = parse('reason', SetAside, body)
      if (!(await dischargeById(tx, clinicId, id)))
        throw new Refusal('not-found', 'Nobody of this id is on the list of discharges.')
      const settling = { settledAt: stored(now), settledBy: staff.id, settledWhy: why, patientId: null }
      if (!(await settleDischarge(tx, id, settling)))
        throw new Refusal('conflict', 'This discharge was enrolled or set aside already.')
      await noteDischarges(tx, staff, now, `set aside discharge ${id}: ${why}`)
      return { id }
    }),
  )
}

/** Within a transaction, for the typed form and for a file alike. */
export const putOnList = (
  tx: Tx,
  staff: StaffMember,
  { name, birthDate, recordNumber, phone, dischargedOn, drainKind, note: words }: NewDischarge,
  now: Date,
): Promise<string> =>
  addDischarge(tx, {
    clinicId: staff.clinicId,
    name,
    birthDate,
    recordNumber,
    phone: phone || null,
    dischargedAt: dischargedOn,
    drainKind: drainKind ?? null,
    note: words || null,
    settledAt: null,
    settledBy: null,
    settledWhy: null,
    patientId: null,
    recordedAt: stored(now),
    recordedBy: staff.id,
  })

/** Whether somebody of a record number is in follow-up now. */
export async function isEnrolled(tx: Tx, clinicId: string, recordNumber: string): Promise<boolean> {
  const patient = await patientByRecordNumber(tx, clinicId, recordNumber)
  return patient !== null && patient.followUpEndedAt === null
}

/** Today, by the clinic's calendar. */
export async function todayAt(tx: Tx, clinicId: string, now: Date): Promise<string> {
  const clinic = await clinicById(tx, clinicId)
  return localDate(now.getTime(), clinic?.timeZone ?? 'UTC')
}

/** Dates that no single field can judge. */
export function dayFaults({ birthDate, dischargedOn }: NewDischarge, today: string) {
  const faults: { field: string; value: string; message: string }[] = []
  if (birthDate >= today)
    faults.push({ field: 'birthDate', value: birthDate, message: 'accepted: a day in the past' })
  if (dischargedOn > today)
    faults.push({ field: 'dischargedOn', value: dischargedOn, message: 'accepted: today or a day before' })
  return faults
}

const plain = ({
  id,
  recordNumber,
  name,
  birthDate,
  phone,
  dischargedAt,
  drainKind,
  note,
}: StoredDischarge) => ({
  id,
  recordNumber,
  name,
  birthDate,
  phone,
  dischargedOn: dischargedAt,
  drainKind,
  note,
})

const idsOf = (rows: readonly { id: string }[]) => rows.map(({ id }) => id).join(' ')

export const noteDischarges = (tx: Tx, staff: StaffMember, now: Date, what: string): Promise<void> =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action: 'keep-discharges',
    patientId: null,
    what,
  })
