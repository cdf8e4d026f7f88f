import { staffRoute } from '@/lib/http/staff-route.ts'
import { moveTarget } from '@/lib/intake/index.ts'

/** The drains of a patient to whom a report is to be moved. */
export const GET = staffRoute<{ id: string }>('move-report', async ({ staff, params }) =>
  moveTarget(staff, params.id),
)
