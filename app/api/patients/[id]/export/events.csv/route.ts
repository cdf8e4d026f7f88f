import { staffRoute } from '@/lib/http/staff-route.ts'
import { exportCsv } from '@/lib/worklist/export/export-csv.ts'
import { csvAnswer } from '../csv-answer.ts'

/** What was said and done of a patient as CSV, a row each. */
export const GET = staffRoute<{ id: string }>('read-patient', async ({ staff, params }) =>
  csvAnswer(await exportCsv(staff, params.id, 'events')),
)
