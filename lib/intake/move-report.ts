import { recordAccess } from '../access/record.ts'
import { noteLateWord } from '../assessment/late-word.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { type MoveTarget, NewMove } from '../domain/move-report.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { Report } from '../domain/record.ts'
import { drainsOfReport } from '../domain/report-drains.ts'
import type { StaffMember } from '../domain/staff.ts'
import { replacements } from '../domain/standing-reports.ts'
import type { Submission } from '../domain/submission.ts'
import { tell } from '../notify/bus.ts'
import { addReport } from '../store/add-report.ts'
import { answerOnce } from '../store/answered.ts'
import { drainsOf, type StoredDrain } from '../store/drains.ts'
import { hashOfBody } from '../store/hashes.ts'
import { type Tx, write } from '../store/index.ts'
import { filedReport, markMoved } from '../store/move-report.ts'
import type { Patient } from '../store/patients.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { newId, stored } from '../store/rows.ts'
import { withReport } from '../store/with-report.ts'
import { submissionOf } from './own-reports.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'
import { newReceiptCode } from './receipt.ts'

/** All copies have one source: a report is moved from a patient once. */
const MOVE_SOURCE = 'moved'

/**
 * Moves a report that was filed under the wrong patient. It stays in the store as it was filed, and is left out of
 * that patient's record from now on; a copy with its own times stands in the right patient's record as received
 * now, since nobody could act on it there before. Of a chain of corrections the whole chain leaves, and what counts
 * of it arrives. Both patients are assessed, in one transaction.
 * @throws Refusal invalid-input (drains that do not fit), not-found, conflict (moved already, the same patient), key-reused
 */
export async function moveReport(
  staff: StaffMember,
  patientId: string,
  reportId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ report: string; to: string }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { move: body, patientId, reportId } }
  const moved = await write((tx) =>
    answerOnce(tx, request, stored(now), () => moveWithin(tx, staff, patientId, reportId, body, now)),
  )
  for (const id of [patientId, moved.to]) tell(clinicId, { patientId: id, kind: 'report' })
  return moved
}

async function moveWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  reportId: string,
  body: unknown,
  now: Date,
) {
  const { clinicId } = staff
  const { to, drains, why } = parse('move', NewMove, body)
  await patientOf(tx, clinicId, patientId)
  const filed = await filedReport(tx, reportId)
  if (filed?.patientId !== patientId) throw new Refusal('not-found', 'This patient has no such report.')
  if (filed.movedAt !== null)
    throw new Refusal('conflict', `This report was moved already, at ${filed.movedAt}.`)
  if (to === patientId) throw new Refusal('conflict', 'This is the patient under whom the report stands.')
  const right = await patientOf(tx, clinicId, to)

  const wrong = await composed(tx, patientId, now)
  const { standing, chain } = chainOf(wrong, reportId)
  const theirs = (await drainsOf(tx, to, stored(now))).rows
  const faults = drainFaults(standing, drains, theirs, wrong)
  if (faults.length > 0) throw new Refusal('invalid-input', 'The drains do not fit.', faults)

  const note = wrong.reports.find(({ id }) => id === standing.id)?.note ?? null
  const says = inTheirDrains(submissionOf(standing, note), drains)
  const copy = await fileCopy(tx, staff, right, wrong, standing, says, now)
  const at = stored(now)
  await markMoved(tx, chain, { at, by: staff.id, why, to: copy })
  await reassess(tx, patientId, now)
  await writeAccess(tx, staff, patientId, at, `moved report ${standing.id} to the patient ${to}: ${why}`)
  await writeAccess(tx, staff, to, at, `report ${copy} was moved here from the patient ${patientId}: ${why}`)
  return { report: copy, to }
}

/** The report that counts of a chain of corrections, and all that the chain is made of. */
function chainOf({ record }: Composed, reportId: string): { standing: Report; chain: string[] } {
  const gone = replacements(record.reports)
  const standingId = gone.get(reportId) ?? reportId
  const standing = record.reports.find(({ id }) => id === standingId)
  if (!standing)
    throw new Refusal(
      'conflict',
      'This report is too old to be moved: the rules no longer read what is so old.',
    )
  const chain = [standingId, ...[...gone].filter(([, last]) => last === standingId).map(([id]) => id)]
  return { standing, chain }
}

/** Each drain that the report names goes to one of the other patient's, which was there when it was so. */
function drainFaults(
  report: Report,
  drains: Readonly<Record<string, string>>,
  theirs: readonly StoredDrain[],
  wrong: Composed,
): Fault[] {
  const named = drainsOfReport(report)
  const accepted =
    theirs.map(({ id, label }) => `${id} (${label})`).join(', ') || 'none, this patient has no drain'
  const labelOf = (id: string) => wrong.drains.find((one) => one.id === id)?.label ?? id
  const faults: Fault[] = Object.keys(drains)
    .filter((id) => !named.some(({ drain }) => drain === id))
    .map((id) => ({ field: `drains.${id}`, message: 'is no drain that the report names; remove it' }))
  for (const { drain, firstAt } of named) {
    const field = `drains.${drain}`
    const value = drains[drain]
    const target = theirs.find(({ id }) => id === value)
    if (value === undefined)
      faults.push({
        field,
        message: `is missing: the report speaks of ${labelOf(drain)}; accepted: ${accepted}`,
      })
    else if (!target)
      faults.push({
        field,
        value,
        message: `names no drain of the patient to whom it goes; accepted: ${accepted}`,
      })
    else if (named.some((other) => other.drain < drain && drains[other.drain] === value))
      faults.push({ field, value, message: 'is given for two drains of the report; accepted: each once' })
    else if (Date.parse(firstAt) < Date.parse(target.placedAt))
      faults.push({
        field,
        value,
        message: `was placed at ${target.placedAt}, later than what the report says of it (${firstAt})`,
      })
  }
  return faults
}

function inTheirDrains(says: Submission, drains: Readonly<Record<string, string>>): Submission {
  const moved = <T extends { drain: string }>(list: readonly T[] | undefined): T[] =>
    (list ?? []).map((one) => ({ ...one, drain: drains[one.drain] ?? one.drain }))
  const { readings, flushes, dressings, symptoms } = says
  return {
    ...says,
    readings: moved(readings),
    flushes: moved(flushes),
    dressings: moved(dressings),
    symptoms: symptoms ? { ...symptoms, drains: moved(symptoms.drains) } : null,
  }
}

/** Files the copy under the right patient and assesses them with it. */
async function fileCopy(
  tx: Tx,
  staff: StaffMember,
  right: Patient,
  wrong: Composed,
  standing: Report,
  says: Submission,
  now: Date,
): Promise<string> {
  const row = wrong.reports.find(({ id }) => id === standing.id)
  const receivedAt = stored(now)
  const id = newId()
  const head = {
    id,
    clinicId: staff.clinicId,
    patientId: right.id,
    receivedAt,
    timeZone: right.timeZone,
    // It came here by a member of staff: no link may correct it.
    door: 'phone-in' as const,
    source: MOVE_SOURCE,
    reporter: row?.reporter ?? ('phone-in' as const),
    sentBy: row?.sentBy ?? null,
    linkId: null,
    enteredBy: staff.id,
    key: standing.id,
    bodyHash: hashOfBody({ patientId: right.id, body: says }),
    movedFromId: standing.id,
  }
  const before = await composed(tx, right.id, now)
  const receipt = { receipt: await newReceiptCode(tx), report: id, receivedAt, advice: [] }
  await addReport(tx, { ...head, receipt }, says)
  await reassess(tx, right.id, now, withReport(before, head, says))
  await noteLateWord(tx, before, says, receivedAt)
  return id
}

async function composed(tx: Tx, patientId: string, now: Date): Promise<Composed> {
  const found = await composeRecord(tx, patientId, now)
  if (!found) throw new Error(`move: there is no patient ${patientId}`)
  return found
}

const writeAccess = (tx: Tx, staff: StaffMember, patientId: string, at: string, what: string) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'move-report',
    patientId,
    what,
  })

/**
 * The drains of a patient to whom a report may go, with two identifiers. Whoever asks has found the patient by name or
 * record number; that they were looked at stands in the access record.
 * @throws Refusal not-found
 */
export async function moveTarget(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<MoveTarget> {
  return write(async (tx) => {
    const { id, name, birthDate, recordNumber } = await patientOf(tx, staff.clinicId, patientId)
    const drains = (await drainsOf(tx, id, stored(now))).rows
    await writeAccess(tx, staff, id, stored(now), 'looked at the drains, to move a report')
    return {
      patientId: id,
      name,
      birthDate,
      recordNumber,
      drains: drains.map(({ id, label, placedAt }) => ({ id, label, placedAt })),
    }
  })
}
