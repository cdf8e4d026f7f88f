import { now as clock } from '../../clock.ts'
import { csvText } from '../../domain/csv-text.ts'
import { localDate } from '../../domain/local-time.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { readPatientPage } from '../read-patient-page.ts'
import { dayTable } from './day-table.ts'
import { eventTable } from './event-table.ts'
import { recordExport } from './record-export.ts'

const tables = { days: dayTable, events: eventTable } as const

/** A file that is handed out: its name says no patient's, for it stays in a folder of downloads. */
export type ExportFile = { name: string; body: string }

/**
 * What the charts of a patient show, as CSV; who took it stands in the access record.
 * @throws Refusal not-found
 */
export async function exportCsv(
  staff: StaffMember,
  patientId: string,
  what: keyof typeof tables,
  now: Date = clock(),
): Promise<ExportFile> {
  const page = await readPatientPage(staff, patientId, now, 'live')
  const { names, rows } = tables[what](page)
  await recordExport(staff, patientId, `exported the ${what} as CSV: ${rows.length} rows`, now)
  return { name: `${what}-${localDate(page.asOf, page.clinic.timeZone)}.csv`, body: csvText(names, rows) }
}
