import type { Receipt, Reporter, Submission } from '../domain/submission.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { insert } from './insert.ts'
import { insertMany } from './insert-many.ts'
import type { Door } from './reports.ts'
import { newId, stored } from './rows.ts'

/** What the store keeps of a report besides what it says. */
export type ReportHead = {
  id: string
  clinicId: string
  patientId: string
  receivedAt: string
  timeZone: string
  door: Door
  source: string
  reporter: Reporter
  sentBy: string | null
  linkId: string | null
  enteredBy: string | null
  key: string
  bodyHash: string
  receipt: Receipt
  /** The report under the wrong patient of which this is the copy. */
  movedFromId?: string
}

/** A report with what the store keeps of it besides. */
export type NewReport = { head: ReportHead; says: Submission }

/** From here on one statement with a value for each field is slower, and comes near to what SQLite takes. */
const MANY = 100

/** Stores a report and its parts. A report is only ever added: a correction is another one, which names it. */
export const addReport = (tx: Tx, head: ReportHead, says: Submission): Promise<void> =>
  addReports(tx, [{ head, says }])

/** The same for many, a table at a time. */
export async function addReports(tx: Tx, reports: readonly NewReport[]): Promise<void> {
  const symptoms = reports.flatMap(symptomsRow)
  await insertAll(tx, 'Report', reports.map(reportRow))
  await insertAll(tx, 'Reading', reports.flatMap(readingRows))
  await insertAll(tx, 'Flush', reports.flatMap(flushRows))
  await insertAll(tx, 'DressingChange', reports.flatMap(dressingRows))
  await insertAll(
    tx,
    'Symptoms',
    symptoms.map(({ row }) => row),
  )
  await insertAll(
    tx,
    'DrainSymptoms',
    symptoms.flatMap(({ drains }) => drains),
  )
}

/** A report that is sent has few rows; what a file brings has thousands. */
const insertAll = (tx: Tx, table: Prisma.ModelName, rows: Parameters<typeof insertMany>[2]): Promise<void> =>
  rows.length > MANY ? insertMany(tx, table, rows) : insert(tx, table, rows)

const reportRow = ({ head, says }: NewReport) =>
  ({
    ...head,
    receiptCode: head.receipt.receipt,
    receipt: JSON.stringify(head.receipt),
    supersedesId: says.supersedes ?? null,
    note: says.note ?? null,
  }) satisfies Prisma.ReportUncheckedCreateInput

const partRow = (head: ReportHead, said: { drain: string; at: string }, ordinal: number) => ({
  id: newId(),
  clinicId: head.clinicId,
  patientId: head.patientId,
  reportId: head.id,
  ordinal,
  recordedAt: head.receivedAt,
  drainId: said.drain,
  at: stored(said.at),
})

const readingRows = ({ head, says }: NewReport) =>
  (says.readings ?? []).map((reading, i) => ({
    ...partRow(head, reading, i),
    volumeMl: reading.volumeMl,
    appearance: reading.appearance ?? null,
    total: reading.total ?? false,
    confirmed: reading.confirmed ?? false,
  })) satisfies Prisma.ReadingUncheckedCreateInput[]

const flushRows = ({ head, says }: NewReport) =>
  (says.flushes ?? []).map((flush, i) => ({
    ...partRow(head, flush, i),
    volumeMl: flush.volumeMl ?? null,
    ease: flush.ease ?? null,
  })) satisfies Prisma.FlushUncheckedCreateInput[]

const dressingRows = ({ head, says }: NewReport) =>
  (says.dressings ?? []).map((dressing, i) => ({
    ...partRow(head, dressing, i),
    found: dressing.found ?? null,
    skin: dressing.skin ?? null,
    changed: dressing.changed ?? null,
  })) satisfies Prisma.DressingChangeUncheckedCreateInput[]

function symptomsRow({ head, says: { symptoms } }: NewReport) {
  if (!symptoms) return []
  const { id: reportId, clinicId, patientId, receivedAt: recordedAt } = head
  const id = newId()
  const row = {
    id,
    clinicId,
    patientId,
    reportId,
    recordedAt,
    at: stored(symptoms.at),
    temperatureC: symptoms.temperatureC ?? null,
    chills: symptoms.chills ?? null,
    pain: symptoms.pain ?? null,
    general: symptoms.general ? JSON.stringify(symptoms.general) : null,
  } satisfies Prisma.SymptomsUncheckedCreateInput
  const drains = (symptoms.drains ?? []).map(({ drain, position, leak, draining }, ordinal) => ({
    id: newId(),
    clinicId,
    patientId,
    symptomsId: id,
    drainId: drain,
    ordinal,
    recordedAt,
    position: position ?? null,
    leak: leak ?? null,
    draining: draining ?? null,
  })) satisfies Prisma.DrainSymptomsUncheckedCreateInput[]
  return [{ row, drains }]
}
