import { staffRoute } from '@/lib/http/staff-route.ts'
import { exportCsv } from '@/lib/worklist/export/export-csv.ts'
import { csvAnswer } from '../csv-answer.ts'

/** The days of a patient's drains as CSV, a row per day and drain. */
export const GET = staffRoute<{ id: string }>('read-patient', async ({ staff, params }) =>
  csvAnswer(await exportCsv(staff, params.id, 'days')),
)
