import { staffRoute } from '@/lib/http/staff-route.ts'
import { withdrawStaffEvent } from '@/lib/worklist/index.ts'

/** Withdraws an event that was recorded by mistake, with the reason. */
export const POST = staffRoute<{ id: string; event: string }>(
  'record-staff-event',
  async ({ staff, params, body, key }) =>
    withdrawStaffEvent(staff, params.id, params.event, await body(), key()),
)
