import { recordAccess } from '../access/record.ts'
import { noteLateWord } from '../assessment/late-word.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import type { Assessment } from '../domain/assessment.ts'
import type { Language } from '../domain/languages.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import { type Receipt, type Reporter, Submission } from '../domain/submission.ts'
import { tell } from '../notify/bus.ts'
import { addReport, type ReportHead } from '../store/add-report.ts'
import { hashOfBody } from '../store/hashes.ts'
import { noteHeard } from '../store/heard.ts'
import { type Tx, write } from '../store/index.ts'
import { postpone } from '../store/patient-states.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { reportByKey } from '../store/reports.ts'
import { newId, stored } from '../store/rows.ts'
import { savepoint } from '../store/savepoint.ts'
import { withReport } from '../store/with-report.ts'
import { correctionOf } from './correction.ts'
import { linkActor } from './link-actor.ts'
import type { Sender } from './own-reports.ts'
import { parse } from './parse.ts'
import { noPatient } from './patient-of.ts'
import { newReceiptCode } from './receipt.ts'
import { receiptAdvice } from './receipt-advice.ts'

/**
 * One report at one door. `source` is who sends under its own keys; `by` is the nurse who enters it, if one does;
 * `link` the personal link that it comes by, if it comes by one; `language` that of the page that shows the receipt,
 * the patient's own where it is not said.
 */
export type Incoming = {
  clinicId: string
  patientId: string
  door: 'check-in' | 'phone-in' | 'system'
  source: string
  by: string | null
  link?: Sender
  language?: Language | undefined
  key: string
  body: unknown
}

/**
 * Takes a report, whatever door it came through. When this returns, the report is stored and assessed (or stored, and
 * named on the worklist as one that could not be assessed); a repeat of the same key changes nothing
 * and returns the same receipt.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function receiveReport(incoming: Incoming, now: Date = clock()): Promise<Receipt> {
  const { receipt, isNew } = await write((tx) => receiveReportWithin(tx, incoming, now))
  if (isNew) tell(incoming.clinicId, { patientId: incoming.patientId, kind: 'report' })
  return receipt
}

/** The same within a transaction of the caller's, who tells the open worklists after the commit. */
export async function receiveReportWithin(
  tx: Tx,
  incoming: Incoming,
  now: Date,
): Promise<{ receipt: Receipt; isNew: boolean }> {
  const { clinicId, patientId, door, source, by, link, key, body } = incoming
  const bodyHash = hashOfBody({ patientId, body })
  const earlier = await reportByKey(tx, clinicId, source, key)
  if (earlier) {
    if (earlier.bodyHash === bodyHash) return { receipt: earlier.receipt, isNew: false }
    throw new Refusal(
      'key-reused',
      'This Idempotency-Key came with another report before; send a new key with a new report.',
    )
  }
  const said = parse('report', Submission, body)
  const composed = await composeRecord(tx, patientId, now)
  if (composed?.patient.clinicId !== clinicId) throw noPatient()
  const { corrects, faults } = await correctionOf(tx, composed, incoming, said, now)
  refuse([...unknownDrains(composed, said), ...faults])
  const says: Submission = { ...said, supersedes: corrects }

  const receivedAt = stored(now)
  const head: Omit<ReportHead, 'receipt'> = {
    id: newId(),
    clinicId,
    patientId,
    receivedAt,
    timeZone: composed.patient.timeZone,
    door,
    source,
    reporter: reporterOf(incoming, says),
    sentBy: link?.holderName ?? null,
    linkId: link?.id ?? null,
    enteredBy: by,
    key,
    bodyHash,
  }
  const assessment = await assessed(tx, withReport(composed, head, says), head, now)
  const language = incoming.language ?? composed.patient.profile?.checkInLanguage ?? 'en'
  const receipt: Receipt = {
    receipt: await newReceiptCode(tx),
    report: head.id,
    receivedAt,
    advice: await receiptAdvice(tx, composed, says, assessment, language, now),
  }
  await addReport(tx, { ...head, receipt }, says)
  await noteLateWord(tx, composed, says, receivedAt)
  await recordAccess(tx, {
    clinicId,
    at: receivedAt,
    staffId: by,
    actor: by ?? (link ? linkActor(link) : source),
    action: 'report',
    patientId,
    what: `report ${receipt.receipt}${corrects ? `, a correction of report ${corrects}` : ''}`,
  })
  return { receipt, isNew: true }
}

/**
 * The assessment with the report, or null where it fails: what a person has sent is not lost because a rule cannot
 * run. The patient then stands on the worklist as one who could not be assessed, and is tried again soon.
 */
async function assessed(
  tx: Tx,
  composed: Composed,
  { patientId, receivedAt, reporter }: Pick<ReportHead, 'patientId' | 'receivedAt' | 'reporter'>,
  now: Date,
): Promise<Assessment | null> {
  try {
    return await savepoint(tx, () => reassess(tx, patientId, now, composed))
  } catch (error) {
    await postpone(tx, patientId, now, error instanceof Error ? error.message : String(error))
    await noteHeard(tx, patientId, receivedAt, reporter)
    return null
  }
}

/** A helper's link reports as the helper, whatever the body says. */
function reporterOf({ door, link }: Incoming, says: Submission): Reporter {
  if (door === 'phone-in') return 'phone-in'
  if (door === 'system') return 'system'
  return link?.holder === 'helper' || says.reporter === 'helper' ? 'helper' : 'patient'
}

/** Drains are named by id: one that is not this patient's is refused, with those that are. */
function unknownDrains({ drains, unreadable }: Composed, says: Submission): Fault[] {
  const ids = [...drains, ...unreadable.filter(({ what }) => what === 'drain')].map(({ id }) => id)
  const message = `names no drain of this patient; accepted: ${ids.join(', ')}`
  const unknown = (list: readonly { drain: string }[] | undefined, path: string): Fault[] =>
    (list ?? []).flatMap(({ drain }, i) =>
      ids.includes(drain) ? [] : [{ field: `${path}[${i}].drain`, value: drain, message }],
    )
  return [
    ...unknown(says.readings, 'readings'),
    ...unknown(says.flushes, 'flushes'),
    ...unknown(says.dressings, 'dressings'),
    ...unknown(says.symptoms?.drains, 'symptoms.drains'),
  ]
}

function refuse(faults: Fault[]): void {
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The report names what this patient does not have.', faults)
}
