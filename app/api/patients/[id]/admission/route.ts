import { staffRoute } from '@/lib/http/staff-route.ts'
import { admit, discharge } from '@/lib/worklist/index.ts'

/** The patient is in hospital: deadlines rest. */
export const POST = staffRoute<{ id: string }>('admit', async ({ staff, params, body, key }) =>
  admit(staff, params.id, await body(), key()),
)

/** The patient is home again, and every drain is confirmed: deadlines run on. */
export const DELETE = staffRoute<{ id: string }>('admit', async ({ staff, params, body, key }) =>
  discharge(staff, params.id, await body(), key()),
)
