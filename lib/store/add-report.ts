import type { Receipt, Reporter, Submission } from '../domain/submission.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { insert } from './insert.ts'
import { newId, stored } from './rows.ts'

/** What the store keeps of a report besides what it says. */
export type ReportHead = {
  id: string
  clinicId: string
  patientId: string
  receivedAt: string
  timeZone: string
  door: 'check-in' | 'phone-in' | 'system'
  source: string
  reporter: Reporter
  enteredBy: string | null
  key: string
  bodyHash: string
  receipt: Receipt
}

/** Stores a report and its parts. A report is only ever added: a correction is another one, which names it. */
export async function addReport(tx: Tx, head: ReportHead, says: Submission): Promise<void> {
  const { id: reportId, clinicId, patientId, receivedAt, receipt } = head
  const row = {
    ...head,
    receiptCode: receipt.receipt,
    receipt: JSON.stringify(receipt),
    supersedesId: says.supersedes ?? null,
    note: says.note ?? null,
  } satisfies Prisma.ReportUncheckedCreateInput
  await insert(tx, 'Report', [row])

  const part = (said: { drain: string; at: string }, ordinal: number) => ({
    id: newId(),
    clinicId,
    patientId,
    reportId,
    ordinal,
    recordedAt: receivedAt,
    drainId: said.drain,
    at: stored(said.at),
  })
  const { readings = [], flushes = [], dressings = [], symptoms } = says
  const readingRows = readings.map((reading, i) => ({
    ...part(reading, i),
    volumeMl: reading.volumeMl,
    appearance: reading.appearance ?? null,
    total: reading.total ?? false,
    confirmed: reading.confirmed ?? false,
  })) satisfies Prisma.ReadingUncheckedCreateInput[]
  const flushRows = flushes.map((flush, i) => ({
    ...part(flush, i),
    volumeMl: flush.volumeMl ?? null,
    ease: flush.ease ?? null,
  })) satisfies Prisma.FlushUncheckedCreateInput[]
  const dressingRows = dressings.map((dressing, i) => ({
    ...part(dressing, i),
    found: dressing.found ?? null,
    skin: dressing.skin ?? null,
    changed: dressing.changed ?? null,
  })) satisfies Prisma.DressingChangeUncheckedCreateInput[]
  await insert(tx, 'Reading', readingRows)
  await insert(tx, 'Flush', flushRows)
  await insert(tx, 'DressingChange', dressingRows)
  if (symptoms) await addSymptoms(tx, head, symptoms)
}

async function addSymptoms(
  tx: Tx,
  head: ReportHead,
  says: NonNullable<Submission['symptoms']>,
): Promise<void> {
  const { id: reportId, clinicId, patientId, receivedAt: recordedAt } = head
  const id = newId()
  const row = {
    id,
    clinicId,
    patientId,
    reportId,
    recordedAt,
    at: stored(says.at),
    temperatureC: says.temperatureC ?? null,
    chills: says.chills ?? null,
    pain: says.pain ?? null,
    general: says.general ? JSON.stringify(says.general) : null,
  } satisfies Prisma.SymptomsUncheckedCreateInput
  await insert(tx, 'Symptoms', [row])
  const drainRows = (says.drains ?? []).map(({ drain, position, leak, draining }, ordinal) => ({
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
  await insert(tx, 'DrainSymptoms', drainRows)
}
