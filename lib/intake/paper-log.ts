import { recordAccess } from '../access/record.ts'
import { noteLateWord } from '../assessment/late-word.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { PAPER_MAX_ROWS, type PaperOutcome, PaperSheet } from '../domain/paper-sheet.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import type { Submission } from '../domain/submission.ts'
import { tell } from '../notify/bus.ts'
import { addReports, type NewReport } from '../store/add-report.ts'
import { answerOnce } from '../store/answered.ts'
import { hashOfBody } from '../store/hashes.ts'
import { noteHeard } from '../store/heard.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { postpone } from '../store/patient-states.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { newId, stored } from '../store/rows.ts'
import { savepoint } from '../store/savepoint.ts'
import { isAfterTheEnd } from './import-store.ts'
import { asks, type Checked, checkSheet } from './paper-check.ts'
import { reportsOfRows } from './paper-reports.ts'
import { parse } from './parse.ts'
import { noPatient } from './patient-of.ts'
import { newReceiptCodes } from './receipt.ts'

/** Carries what is wrong with a sheet out of the transaction, which then leaves nothing behind. */
class Unfit extends Error {
  constructor(readonly outcome: PaperOutcome) {
    super('the sheet is not as it is accepted')
  }
}

/**
 * Takes the rows of a paper log: all of them as reports by phone, in one transaction with one assessment at its end,
 * or, while one row is at fault or something must be asked, none. With `dry` the sheet is only looked at. A sheet
 * that was stored under a key is not stored again: a repeat gets the same answer.
 * @throws Refusal invalid-input (no sheet, or too long a one), not-found, key-reused
 */
export async function enterPaperLog(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<PaperOutcome> {
  refuseTooLong(body)
  const sheet = parse('sheet', PaperSheet, body)
  if (sheet.dry)
    return snapshot(async (tx) => {
      const composed = await composedOf(tx, staff, patientId, now)
      return outcomeOf(await checkSheet(tx, composed, sheet, now), sheet)
    })
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { paper: body, patientId } }
  try {
    const outcome = await write((tx) =>
      answerOnce(tx, request, stored(now), () => store(tx, staff, patientId, sheet, key, now)),
    )
    tell(staff.clinicId, { patientId, kind: 'report' })
    return outcome
  } catch (error) {
    if (error instanceof Unfit) return error.outcome
    throw error
  }
}

/** Before anything else of it is looked at: what is far too long is answered in one sentence. */
function refuseTooLong(body: unknown): void {
  const rows = typeof body === 'object' && body !== null && 'rows' in body ? body.rows : null
  if (!Array.isArray(rows) || rows.length <= PAPER_MAX_ROWS) return
  throw new Refusal(
    'invalid-input',
    `The sheet has ${rows.length.toLocaleString('en')} rows; accepted: at most ${PAPER_MAX_ROWS} at once. Nothing is stored.`,
    [{ field: 'rows', message: `accepted: at most ${PAPER_MAX_ROWS} rows; divide the sheet, or use Import` }],
  )
}

async function composedOf(tx: Tx, staff: StaffMember, patientId: string, now: Date): Promise<Composed> {
  const composed = await composeRecord(tx, patientId, now)
  if (composed?.patient.clinicId !== staff.clinicId) throw noPatient()
  return composed
}

const outcomeOf = (checked: Checked, { by }: PaperSheet): PaperOutcome => ({
  stored: false,
  rows: checked.rows,
  reports: checked.faults.length > 0 || asks(checked.asks) ? 0 : reportsOfRows(checked.good, by).length,
  asks: checked.asks,
  faults: checked.faults,
})

async function store(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  sheet: PaperSheet,
  key: string,
  now: Date,
): Promise<PaperOutcome> {
  const composed = await composedOf(tx, staff, patientId, now)
  const checked = await checkSheet(tx, composed, sheet, now)
  const outcome = outcomeOf(checked, sheet)
  if (outcome.reports === 0) throw new Unfit(outcome)

  const says = reportsOfRows(checked.good, sheet.by)
  const codes = await newReceiptCodes(tx, says.length)
  await addReports(
    tx,
    says.map((one, i) => reportOf(one, codes[i] ?? '', `${key}#${i + 1}`, staff, composed, now)),
  )
  await assessOnce(tx, composed, says, now)
  await recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action: 'paper-log',
    patientId,
    what: `${says.length} reports from the paper log (${checked.rows} rows): ${codes.slice(0, 20).join(' ')}${codes.length > 20 ? ' and more' : ''}`,
  })
  return { ...outcome, stored: true }
}

function reportOf(
  says: Submission,
  code: string,
  key: string,
  staff: StaffMember,
  { patient }: Composed,
  now: Date,
): NewReport {
  const id = newId()
  const receivedAt = stored(now)
  const head = {
    id,
    clinicId: staff.clinicId,
    patientId: patient.id,
    receivedAt,
    timeZone: patient.timeZone,
    door: 'phone-in' as const,
    source: staff.id,
    reporter: 'phone-in' as const,
    sentBy: null,
    linkId: null,
    enteredBy: staff.id,
    key,
    bodyHash: hashOfBody({ patientId: patient.id, body: says }),
    receipt: { receipt: code, report: id, receivedAt, advice: [] },
  }
  return { head, says }
}

/** Where a rule cannot run the reports stay, as with one that is sent. */
async function assessOnce(tx: Tx, composed: Composed, says: readonly Submission[], now: Date): Promise<void> {
  const { id } = composed.patient
  try {
    await savepoint(tx, () => reassess(tx, id, now))
  } catch (error) {
    await postpone(tx, id, now, error instanceof Error ? error.message : String(error))
    await noteHeard(tx, id, stored(now), 'phone-in')
  }
  const late = says.find((one) => isAfterTheEnd(composed, one))
  if (late) await noteLateWord(tx, composed, late, stored(now))
}
