import { createHash } from 'node:crypto'
import { now as clock } from '../clock.ts'
import type { ImportOutcome, ImportProgress } from '../domain/import-file.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell as tellOthers } from '../notify/bus.ts'
import { fileTakenAt } from '../store/imports.ts'
import { read, write } from '../store/index.ts'
import { linesOf } from './import-lines.ts'
import { type ImportRow, rowsOf } from './import-rows.ts'
import { newRowsOf, storeRows } from './import-store.ts'

/** The largest file takes some ten seconds; a machine that is slow or busy has time for it. */
const TIMEOUT_MS = 10 * 60_000

export type GivenFile = { name: string; bytes: Uint8Array; dryRun: boolean }

/**
 * Takes a file of reports (docs/record-format.md): looks at every line, and stores all or, while one line is at
 * fault, none. With `dryRun` nothing is stored. What was said before, in this file or an earlier one, adds nothing.
 * All that can be done before is done before the one transaction: it holds the store's only writer.
 */
export async function importReports(
  staff: StaffMember,
  { name, bytes, dryRun }: GivenFile,
  tell: (progress: ImportProgress) => void = () => undefined,
  now: Date = clock(),
): Promise<ImportOutcome> {
  const { lines, faults: broken } = await linesOf(bytes)
  tell({ phase: 'parsed', done: lines.length, of: lines.length })
  const found = await read((tx) => rowsOf(tx, staff.clinicId, lines, now, tell))
  const faults = [...broken, ...found.faults].sort((a, b) => a.line - b.line)
  const outcome = {
    dryRun,
    lines: lines.length,
    patients: patientsOf(found.rows),
    reports: 0,
    repeated: 0,
    faults,
    takenAt: null,
  }
  if (faults.length > 0) return outcome

  const hash = createHash('sha256').update(bytes).digest('hex')
  if (dryRun) {
    const fresh = await read((tx) => newRowsOf(tx, staff.clinicId, found.rows))
    return {
      ...outcome,
      patients: patientsOf(fresh),
      reports: fresh.length,
      repeated: found.repeated + found.rows.length - fresh.length,
      takenAt: await read((tx) => fileTakenAt(tx, staff.clinicId, hash)),
    }
  }
  const file = { name, hash, lines: lines.length }
  const done = await write((tx) => storeRows(tx, staff, file, found.rows, now, tell), TIMEOUT_MS)
  for (const patientId of done.patients) tellOthers(staff.clinicId, { patientId, kind: 'report' })
  return {
    ...outcome,
    patients: done.patients.length,
    reports: done.reports,
    repeated: found.repeated + found.rows.length - done.reports,
    takenAt: done.takenAt,
  }
}

const patientsOf = (rows: readonly ImportRow[]) => new Set(rows.map(({ patientId }) => patientId)).size
