import { recordAccess } from '../access/record.ts'
import { noteLateWord } from '../assessment/late-word.ts'
import { reassess } from '../assessment/reassess.ts'
import type { ImportProgress } from '../domain/import-file.ts'
import type { StaffMember } from '../domain/staff.ts'
import type { Submission } from '../domain/submission.ts'
import { addReports, type NewReport } from '../store/add-report.ts'
import { noteHeard } from '../store/heard.ts'
import { addImportedFile, fileTakenAt, knownKeys } from '../store/imports.ts'
import type { Tx } from '../store/index.ts'
import { postpone } from '../store/patient-states.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { grouped, newId, stored } from '../store/rows.ts'
import { savepoint } from '../store/savepoint.ts'
import type { ImportRow } from './import-rows.ts'
import { newReceiptCodes } from './receipt.ts'

/** All files of a clinic have one source: what one file said, another adds nothing to. */
export const IMPORT_SOURCE = 'import'

/** So many reports go into the store before it is told how far it is. */
const REPORTS_AT_ONCE = 1000

export type ImportFile = { name: string; hash: string; lines: number }
type Tell = (progress: ImportProgress) => void

/** Those of the rows that no file has brought yet. */
export async function newRowsOf(tx: Tx, clinicId: string, rows: readonly ImportRow[]): Promise<ImportRow[]> {
  const keys = rows.map(({ key }) => key)
  const known = new Set(await knownKeys(tx, clinicId, IMPORT_SOURCE, keys))
  return rows.filter(({ key }) => !known.has(key))
}

/**
 * Stores all rows of a file and assesses each of their patients once, in the caller's transaction: so all or
 * nothing. Gives the patients, and when the file was taken in before, if it was: then nothing is stored.
 */
export async function storeRows(
  tx: Tx,
  staff: StaffMember,
  file: ImportFile,
  rows: readonly ImportRow[],
  now: Date,
  tell: Tell,
): Promise<{ reports: number; patients: string[]; takenAt: string | null }> {
  const { clinicId } = staff
  const takenAt = await fileTakenAt(tx, clinicId, file.hash)
  if (takenAt !== null) return { reports: 0, patients: [], takenAt }

  const fresh = await newRowsOf(tx, clinicId, rows)
  const codes = await newReceiptCodes(tx, fresh.length)
  const reports = fresh.map((row, i) => reportOf(row, codes[i] ?? '', staff, now))
  for (let from = 0; from < reports.length; from += REPORTS_AT_ONCE) {
    tell({ phase: 'stored', done: from, of: reports.length })
    await addReports(tx, reports.slice(from, from + REPORTS_AT_ONCE))
  }
  tell({ phase: 'stored', done: reports.length, of: reports.length })

  const patients = [...grouped(fresh, ({ patientId }) => patientId)]
  for (const [i, [patientId, said]] of patients.entries()) {
    if (i % 10 === 0) tell({ phase: 'assessed', done: i, of: patients.length })
    await assessOne(tx, patientId, said, now)
    await note(tx, staff, now, patientId, `${said.length} reports from a file`)
  }
  tell({ phase: 'assessed', done: patients.length, of: patients.length })

  const what = `took in a file (${file.hash.slice(0, 12)}): ${reports.length} reports of ${patients.length} patients`
  await note(tx, staff, now, null, what)
  await addImportedFile(tx, {
    id: newId(),
    clinicId,
    fileHash: file.hash,
    name: file.name,
    lines: file.lines,
    added: reports.length,
    recordedAt: stored(now),
    recordedBy: staff.id,
  })
  return { reports: reports.length, patients: patients.map(([id]) => id), takenAt: null }
}

function reportOf(row: ImportRow, code: string, staff: StaffMember, now: Date): NewReport {
  const { patientId, timeZone, key, says } = row
  const id = newId()
  const receivedAt = stored(now)
  const head = {
    id,
    clinicId: staff.clinicId,
    patientId,
    receivedAt,
    timeZone,
    door: 'import' as const,
    source: IMPORT_SOURCE,
    reporter: 'system' as const,
    sentBy: null,
    linkId: null,
    enteredBy: staff.id,
    key,
    bodyHash: key,
    receipt: { receipt: code, report: id, receivedAt, advice: [] },
  }
  return { head, says }
}

/** Once for all that the file says of a patient. Where a rule cannot run the reports stay, as with one that is sent. */
async function assessOne(tx: Tx, patientId: string, said: readonly ImportRow[], now: Date): Promise<void> {
  const composed = await composeRecord(tx, patientId, now)
  if (!composed) throw new Error(`import: there is no patient ${patientId}`)
  try {
    await savepoint(tx, () => reassess(tx, patientId, now, composed))
  } catch (error) {
    await postpone(tx, patientId, now, error instanceof Error ? error.message : String(error))
    await noteHeard(tx, patientId, stored(now), 'system')
  }
  const late = said.map(({ says }) => says).filter((says) => isAfterTheEnd(composed, says))
  for (const says of late.slice(0, 1)) await noteLateWord(tx, composed, says, stored(now))
}

/** Whether a report is of a time after follow-up ended, or after its drain was taken out: what was so before then is history. */
export function isAfterTheEnd({ patient, record }: Composed, says: Submission): boolean {
  const parts = [...(says.readings ?? []), ...(says.flushes ?? []), ...(says.dressings ?? [])]
  const at = says.symptoms?.at ?? parts[0]?.at
  if (at === undefined) return patient.followUpEndedAt !== null
  const drains = new Set([...parts, ...(says.symptoms?.drains ?? [])].map(({ drain }) => drain))
  const ends = record.staffEvents
    .filter(({ type, drain }) => type === 'removed' && drain != null && drains.has(drain))
    .map((event) => event.at)
  if (patient.followUpEndedAt !== null) ends.push(patient.followUpEndedAt)
  return ends.some((end) => Date.parse(at) > Date.parse(end))
}

const note = (tx: Tx, staff: StaffMember, now: Date, patientId: string | null, what: string) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action: 'import-reports',
    patientId,
    what,
  })
