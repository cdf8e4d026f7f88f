import { staffRoute } from '@/lib/http/staff-route.ts'
import { recordStaffEvent } from '@/lib/worklist/index.ts'

export const POST = staffRoute<{ id: string }>('record-staff-event', async ({ staff, params, body, key }) =>
  recordStaffEvent(staff, params.id, await body(), key()),
)
