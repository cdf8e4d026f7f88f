import { staffRoute } from '@/lib/http/staff-route.ts'
import { addDrainTo, moveTarget } from '@/lib/intake/index.ts'

/** The drains of a patient to whom a report is to be moved. */
export const GET = staffRoute<{ id: string }>('move-report', async ({ staff, params }) =>
  moveTarget(staff, params.id),
)

/** A further drain with its orders. */
export const POST = staffRoute<{ id: string }>('enrol', async ({ staff, params, body, key }) =>
  addDrainTo(staff, params.id, await body(), key()),
)
