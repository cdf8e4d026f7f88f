import { recordAccess } from '../access/record.ts'
import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import type { PatientPage } from '../domain/patient-page.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { assess } from '../rules/assess.ts'
import { callbacksOf } from '../store/callbacks.ts'
import { clinicById } from '../store/clinics.ts'
import { flagsSince, shown, stepsSince } from '../store/flags.ts'
import { holdOf } from '../store/holds.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { pageLimits } from './page-limits.ts'
import { isOfClinic } from './patient-of.ts'

/** How far back flags, steps and reporters are shown, in days, and how many calls. */
const SHOWN_DAYS = 400
const CALLS = 200

/**
 * All that the coordinator sees of one patient, as of now, in one answer. The view stands in the access record.
 * @throws Refusal not-found
 */
export async function readPatientPage(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<PatientPage> {
  const page = await snapshot((tx) => compose(tx, staff, patientId, now))
  await write((tx) =>
    recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'view-patient',
      patientId,
      what: 'opened the patient’s page',
    }),
  )
  return page
}

async function compose(
  tx: Tx,
  { clinicId }: StaffMember,
  patientId: string,
  now: Date,
): Promise<PatientPage> {
  await isOfClinic(tx, clinicId, patientId)
  const clinic = await clinicById(tx, clinicId)
  const composed = await composeRecord(tx, patientId, now)
  if (!clinic || !composed) throw new Refusal('not-found', 'There is no such patient in this clinic.')
  const at = stored(now)
  const from = stored(new Date(now.getTime() - SHOWN_DAYS * 86_400_000))
  const { patient, record, drains, reports } = composed
  const names = await staffNamesOf(tx, clinicId)
  const nameOf = (id: string | null) => (id === null ? null : (names.get(id) ?? id))
  const { rows: flags } = await flagsSince(tx, patientId, from)
  const { rows: steps } = await stepsSince(tx, patientId, from)
  const { id, name, birthDate, recordNumber, phone, language, interpreter, timeZone } = patient
  const rules = await ruleSetAt(tx, clinicId, now)
  const assessment = assess(record, rules, at)
  return {
    asOf: at,
    patient: { id, name, birthDate, recordNumber, phone, language, interpreter, timeZone },
    clinic: { id: clinic.id, name: clinic.name, timeZone: clinic.timeZone, demo: clinic.demo },
    labels: Object.fromEntries(drains.map(({ id, label, frenchSize }) => [id, { label, frenchSize }])),
    record,
    assessment,
    limits: pageLimits(record, assessment, rules),
    reports: Object.fromEntries(
      reports.map(({ id, reporter, enteredBy, note }) => [
        id,
        { reporter, enteredBy: nameOf(enteredBy), note },
      ]),
    ),
    flags: flags.map((flag) => ({ ...shown(flag), closedBy: nameOf(flag.closedBy) })),
    steps: steps.map((step) => ({ ...step, by: nameOf(step.by) })),
    callbacks: (await callbacksOf(tx, patientId, CALLS)).rows,
    hold: await holdOf(tx, patientId, at),
  }
}
