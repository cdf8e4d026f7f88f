import { readOutcomePatient, recordOutsideEvent } from '@/lib/audit/outcomes/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

export const GET = staffRoute<{ id: string }>('record-outside-event', ({ staff, params }) =>
  readOutcomePatient(staff, params.id),
)

export const POST = staffRoute<{ id: string }>('record-outside-event', async ({ staff, params, body, key }) =>
  recordOutsideEvent(staff, params.id, await body(), key()),
)
