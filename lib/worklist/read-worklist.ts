import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import type { Worklist } from '../domain/worklist.ts'
import { limitsOf } from '../rules/thresholds.ts'
import { shownAdmission, standingAdmissions } from '../store/admissions.ts'
import { clinicById } from '../store/clinics.ts'
import { standingFlagsOf } from '../store/flags.ts'
import { holdsOf } from '../store/holds.ts'
import { snapshot, type Tx } from '../store/index.ts'
import { grouped, stored } from '../store/rows.ts'
import { countsOf, rowPatientsOf, troublesOf } from '../store/worklist-rows.ts'
import { alikeOnList } from './name-alert.ts'
import { standingOf } from './on-call-rows.ts'
import { compareRows } from './order.ts'
import { rowFor } from './row.ts'
import { withMarks } from './row-marks.ts'
import { noteWorklistSeen } from './seen.ts'
import { slim } from './slim-row.ts'
import { systemNotes } from './system-notes.ts'

/** After how long without a report a patient counts as not heard. */
const NOT_HEARD_MS = 48 * 3_600_000

/**
 * The worklist of a member of staff's clinic: all of it, in order, in a constant number of queries over what
 * stands, never over the reports. A row that cannot be read is named and hides no other.
 */
export async function readWorklist(staff: StaffMember, now: Date = clock()): Promise<Worklist> {
  const worklist = await snapshot((tx) => composeWorklist(tx, staff.clinicId, now))
  await noteWorklistSeen(
    staff,
    worklist.rows.map(({ patientId }) => patientId),
    now,
  )
  return { ...worklist, rows: worklist.rows.map(slim) }
}

/** The same within a transaction of the caller’s, who answers for the access record. */
export async function composeWorklist(tx: Tx, clinicId: string, now: Date): Promise<Worklist> {
  const at = stored(now)
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const flags = await standingFlagsOf(tx, clinicId)
  const patients = await rowPatientsOf(tx, clinicId, at)
  const holds = await holdsOf(tx, clinicId, at)
  const counts = await countsOf(tx, clinicId, stored(new Date(now.getTime() - NOT_HEARD_MS)))
  const troubles = await troublesOf(tx, clinicId)
  const stays = await standingAdmissions(tx, clinicId)
  const escalations = await standingOf(tx, clinicId)

  const flagsOf = grouped(flags.rows, ({ patientId }) => patientId)
  const holdOf = new Map(holds.rows.map(({ patientId, hold }) => [patientId, hold]))
  const stayOf = new Map(stays.rows.map((stay) => [stay.patientId, stay]))
  const onCallOf = new Map(escalations.map(({ escalation, state }) => [escalation.patientId, state]))
  const alike = alikeOnList(patients.rows)
  const composed = patients.rows
    .map((patient) => ({
      ...rowFor(
        patient,
        flagsOf.get(patient.patientId) ?? [],
        holdOf.get(patient.patientId) ?? null,
        at,
        shownAdmission(stayOf.get(patient.patientId)),
      ),
      nameAlert: alike.has(patient.patientId),
      onCall: onCallOf.get(patient.patientId) ?? null,
    }))
    .toSorted(compareRows)
  const rows = await withMarks(tx, clinicId, composed, now)
  const inFollowUp = rows.filter(({ followUpEnd }) => followUpEnd === null).length
  const { id, name, timeZone, demo } = clinic
  return {
    asOf: at,
    clinic: { id, name, timeZone, demo },
    completeFrom: limitsOf(await ruleSetAt(tx, clinicId, now)).completeCoverage,
    rows,
    patients: counts.patients,
    nothingFlagged: Math.max(0, counts.patients - inFollowUp - patients.unreadable.length),
    notHeard: counts.notHeard,
    unreadable: [
      ...flags.unreadable,
      ...patients.unreadable,
      ...holds.unreadable,
      ...stays.unreadable,
      ...troubles,
    ],
    system: await systemNotes(tx, clinicId, now, escalations),
  }
}
