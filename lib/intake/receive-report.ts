import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { adviceFor } from '../domain/advice.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import { type Receipt, type Reporter, Submission } from '../domain/submission.ts'
import { tell } from '../notify/bus.ts'
import { addReport } from '../store/add-report.ts'
import { hashOfBody } from '../store/hashes.ts'
import { type Tx, write } from '../store/index.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { isReportOf, reportByKey } from '../store/reports.ts'
import { newId, stored } from '../store/rows.ts'
import { withReport } from '../store/with-report.ts'
import { checkInDrains } from './check-in-drains.ts'
import { parse } from './parse.ts'
import { noPatient } from './patient-of.ts'
import { newReceiptCode } from './receipt.ts'

/** One report at one door. `source` is who sends under its own keys; `by` is the nurse who enters it, if one does. */
export type Incoming = {
  clinicId: string
  patientId: string
  door: 'check-in' | 'phone-in' | 'system'
  source: string
  by: string | null
  key: string
  body: unknown
}

/**
 * Takes a report, whatever door it came through. When this returns, the report is stored and assessed; a
 * repeat of the same key changes nothing and returns the same receipt.
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
  { clinicId, patientId, door, source, by, key, body }: Incoming,
  now: Date,
): Promise<{ receipt: Receipt; isNew: boolean }> {
  const bodyHash = hashOfBody({ patientId, body })
  const earlier = await reportByKey(tx, clinicId, source, key)
  if (earlier) {
    if (earlier.bodyHash === bodyHash) return { receipt: earlier.receipt, isNew: false }
    throw new Refusal(
      'key-reused',
      'This Idempotency-Key came with another report before; send a new key with a new report.',
    )
  }
  const says = parse('report', Submission, body)
  const composed = await composeRecord(tx, patientId, now)
  if (composed?.patient.clinicId !== clinicId) throw noPatient()
  await refuseUnknown(tx, composed, says)

  const receivedAt = stored(now)
  const id = newId()
  const receipt: Receipt = {
    receipt: await newReceiptCode(tx),
    report: id,
    receivedAt,
    advice: adviceFor(says, checkInDrains(composed, now)),
  }
  const reporter = reporterOf(door, says)
  const { timeZone } = composed.patient
  const head = {
    id,
    clinicId,
    patientId,
    receivedAt,
    timeZone,
    door,
    source,
    reporter,
    enteredBy: by,
    key,
    bodyHash,
    receipt,
  }
  await addReport(tx, head, says)
  await reassess(tx, patientId, now, withReport(composed, head, says))
  const what = `report ${receipt.receipt}${says.supersedes ? `, a correction of report ${says.supersedes}` : ''}`
  await recordAccess(tx, {
    clinicId,
    at: receivedAt,
    staffId: by,
    actor: by ?? source,
    action: 'report',
    patientId,
    what,
  })
  return { receipt, isNew: true }
}

function reporterOf(door: Incoming['door'], says: Submission): Reporter {
  if (door === 'phone-in') return 'phone-in'
  if (door === 'system') return 'system'
  return says.reporter === 'helper' ? 'helper' : 'patient'
}

/** Drains and reports are named by id: one that is not this patient's is refused, with those that are. */
async function refuseUnknown(
  tx: Tx,
  { patient, drains, unreadable }: Composed,
  says: Submission,
): Promise<void> {
  const ids = [...drains, ...unreadable.filter(({ what }) => what === 'drain')].map(({ id }) => id)
  const message = `names no drain of this patient; accepted: ${ids.join(', ')}`
  const unknown = (list: readonly { drain: string }[] | undefined, path: string): Fault[] =>
    (list ?? []).flatMap(({ drain }, i) =>
      ids.includes(drain) ? [] : [{ field: `${path}[${i}].drain`, value: drain, message }],
    )
  const faults = [
    ...unknown(says.readings, 'readings'),
    ...unknown(says.flushes, 'flushes'),
    ...unknown(says.dressings, 'dressings'),
    ...unknown(says.symptoms?.drains, 'symptoms.drains'),
  ]
  const { supersedes } = says
  if (supersedes && !(await isReportOf(tx, patient.id, supersedes)))
    faults.push({
      field: 'supersedes',
      value: supersedes,
      message: 'names no report of this patient; accepted: the id of the report that it corrects',
    })
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The report names what this patient does not have.', faults)
}
