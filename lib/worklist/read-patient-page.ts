import { recordAccess } from '../access/record.ts'
import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import { alikeNames, likeBirthDates } from '../domain/alike.ts'
import { ruleOf } from '../domain/next-try.ts'
import { MOST_CALLS, type PageReach, type PatientPage } from '../domain/patient-page.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { admissionOf, shownAdmission } from '../store/admissions.ts'
import { ownCallTexts } from '../store/call-texts.ts'
import { callbacksOf } from '../store/callbacks.ts'
import { clinicById } from '../store/clinics.ts'
import { verdictsOfFlags } from '../store/flag-verdicts.ts'
import { flagsSince, type KeptFlag, shown, stepsSince } from '../store/flags.ts'
import { followUpStepsOf } from '../store/follow-up.ts'
import { holdOf } from '../store/holds.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { movedReportsOf } from '../store/move-report.ts'
import { noAnswerClinic } from '../store/no-answer.ts'
import { notesOf } from '../store/patient-notes.ts'
import { callStateOf, saveRead } from '../store/patient-states.ts'
import { type Patient, patientsBornOn } from '../store/patients.ts'
import { wholeSpan } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { nextTryOf } from './next-tries.ts'
import { pageEscalations } from './on-call-rows.ts'
import { pageLimits } from './page-limits.ts'
import { eventsOf, followUpOf, ordersOf, ownThresholds, visitsOf } from './page-parts.ts'
import { pageRecord } from './page-record.ts'
import { isOfClinic } from './patient-of.ts'
import { isSameView } from './same-view.ts'

/**
 * All that the coordinator sees of one patient, as of now, in one answer. The view stands in the access record:
 * each opening, and of an open page that reads itself again one view as long as it stays open.
 * @param how `open`: somebody opens the page, and has then read what came so far. `beside`: somebody opens a form that takes from it
 *   whose it is, and reads nothing of what came
 * @param reach `recent`: of the reports and the days only the last, and how many are left out
 * @throws Refusal not-found
 */
export async function readPatientPage(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
  how: 'open' | 'beside' | 'live' = 'open',
  reach: PageReach = 'whole',
): Promise<PatientPage> {
  const page = await snapshot((tx) => compose(tx, staff, patientId, now, reach))
  if (isSameView(staff.id, patientId, now) && how === 'live') return page
  await write(async (tx) => {
    if (how === 'open') await saveRead(tx, patientId, stored(now))
    await recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'view-patient',
      patientId,
      what: `opened the patient’s page${shownToo(page)}`,
    })
  })
  return page
}

/** The calls with the texts for the next one, the notes, and what is to be tried next. */
async function callsOf(
  tx: Tx,
  clinicId: string,
  { id, profile }: Patient,
  flags: readonly KeptFlag[],
  now: Date,
) {
  const clinic = await noAnswerClinic(tx, clinicId)
  const { rows: callbacks } = await callbacksOf(tx, id, MOST_CALLS)
  return {
    callbacks,
    notes: (await notesOf(tx, id, MOST_CALLS)).rows,
    callTexts: await ownCallTexts(tx, clinicId),
    noAnswer: clinic ? ruleOf(clinic.rules, flags) : null,
    nextTry: clinic ? nextTryOf(clinic, profile, flags, callbacks, now) : null,
  }
}

/** Others whom the page names: they are seen, too. */
const shownToo = ({ alike, moves }: PatientPage) =>
  named('as alike', alike) +
  named(
    'for a moved report',
    moves.map(({ other }) => other),
  )
const named = (why: string, others: readonly { patientId: string }[]) =>
  others.length > 0
    ? `, which names ${why}: ${[...new Set(others.map(({ patientId }) => patientId))].join(' ')}`
    : ''

async function compose(
  tx: Tx,
  { clinicId }: StaffMember,
  patientId: string,
  now: Date,
  reach: PageReach,
): Promise<PatientPage> {
  await isOfClinic(tx, clinicId, patientId)
  const clinic = await clinicById(tx, clinicId)
  const rules = await ruleSetAt(tx, clinicId, now)
  const read = await pageRecord(tx, patientId, { now, rules, reach })
  if (!clinic || !read) throw new Refusal('not-found', 'There is no such patient in this clinic.')
  const at = stored(now)
  const { from } = wholeSpan(patientId, now)
  const { composed, assessment, leftOut } = read
  const { patient, record, drains, reports } = composed
  const names = await staffNamesOf(tx, clinicId)
  const nameOf = (id: string | null) => (id === null ? null : (names.get(id) ?? id))
  const { rows: flags } = await flagsSince(tx, patientId, from)
  const { rows: steps } = await stepsSince(tx, patientId, from)
  const { id, name, birthDate, recordNumber, phone, language, interpreter, timeZone } = patient
  const { rows: born } = await patientsBornOn(tx, clinicId, likeBirthDates(birthDate))
  const calls = await callStateOf(tx, patientId)
  const { rows: followUp } = await followUpStepsOf(tx, patientId)
  return {
    asOf: at,
    from,
    patient: {
      id,
      name,
      birthDate,
      recordNumber,
      phone,
      language,
      interpreter,
      timeZone,
      profile: patient.profile,
    },
    followUp: followUpOf(patient, followUp, nameOf),
    admission: shownAdmission(await admissionOf(tx, patientId)),
    lateWord: calls?.lookAgainAt && calls.lookAgainAt <= at ? calls.lookAgainWhy : null,
    alike: born.filter((other) => other.patientId !== id && alikeNames(other.name, name)),
    clinic: { id: clinic.id, name: clinic.name, timeZone: clinic.timeZone, demo: clinic.demo },
    labels: Object.fromEntries(
      drains.map(({ id, label, frenchSize, lengthMarkCm }) => [id, { label, frenchSize, lengthMarkCm }]),
    ),
    leftOut,
    record,
    assessment,
    ...ordersOf(composed.plans, nameOf),
    events: eventsOf(composed.events, nameOf),
    thresholds: ownThresholds(rules),
    visits: visitsOf(composed.visits, nameOf),
    limits: pageLimits(record, assessment, rules),
    reports: Object.fromEntries(
      reports.map(({ id, reporter, sentBy, enteredBy, note }) => [
        id,
        { reporter, sentBy, enteredBy: nameOf(enteredBy), note },
      ]),
    ),
    moves: (await movedReportsOf(tx, patientId, at)).rows.map((move) => ({
      ...move,
      by: nameOf(move.by) ?? move.by,
    })),
    flags: flags.map((flag) => ({ ...shown(flag), closedBy: nameOf(flag.closedBy) })),
    steps: steps.map((step) => ({ ...step, by: nameOf(step.by) })),
    verdicts: await verdictsOfFlags(
      tx,
      clinicId,
      flags.map((flag) => flag.id),
    ),
    ...(await callsOf(tx, clinicId, patient, flags, now)),
    escalations: await pageEscalations(tx, patientId, from),
    hold: await holdOf(tx, patientId, at),
  }
}
