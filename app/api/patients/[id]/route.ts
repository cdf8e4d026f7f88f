import { staffRoute } from '@/lib/http/staff-route.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'

/** What an open page reads again by itself; opening it is the page's own. */
export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params }) =>
  readPatientPage(staff, params.id, undefined, 'live'),
)
