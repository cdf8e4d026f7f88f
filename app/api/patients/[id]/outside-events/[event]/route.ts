import { withdrawOutsideEvent } from '@/lib/audit/outcomes/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** Withdraws an event for a reason; it stays readable. */
export const POST = staffRoute<{ id: string; event: string }>(
  'record-outside-event',
  async ({ staff, params, body, key }) =>
    withdrawOutsideEvent(staff, params.id, params.event, await body(), key()),
)
