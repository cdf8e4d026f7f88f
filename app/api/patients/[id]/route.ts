import { staffRoute } from '@/lib/http/staff-route.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'

export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params }) =>
  readPatientPage(staff, params.id),
)
