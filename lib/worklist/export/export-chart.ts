import { now as clock } from '../../clock.ts'
import { localDate } from '../../domain/local-time.ts'
import type { PatientPage } from '../../domain/patient-page.ts'
import type { StaffMember } from '../../domain/staff.ts'
import type { PaperSize } from '../print/paper.ts'
import { readPatientPage } from '../read-patient-page.ts'
import { chartPdf, type DrawnTimeline } from './chart-pdf.ts'
import { recordExport } from './record-export.ts'

/**
 * A patient's two pages for the chart at the hospital; who took them stands in the access record.
 * @param draw makes the timeline: what draws stands with the screens
 * @throws Refusal not-found
 */
export async function exportChart(
  staff: StaffMember,
  patientId: string,
  { size, draw }: { size: PaperSize; draw: (page: PatientPage) => DrawnTimeline },
  now: Date = clock(),
): Promise<{ name: string; body: Uint8Array }> {
  const page = await readPatientPage(staff, patientId, now, 'live')
  const body = await chartPdf(page, staff, size, draw)
  await recordExport(staff, patientId, 'exported the pages for the chart as PDF', now)
  return { name: `chart-${localDate(page.asOf, page.clinic.timeZone)}.pdf`, body }
}
