import { staffRoute } from '@/lib/http/staff-route.ts'
import { stepHandover } from '@/lib/worklist/handover.ts'

/** Its note, the acceptance of a row, a signature, or its withdrawal. */
export const POST = staffRoute<{ id: string }>('hand-over', async ({ staff, params, body, key }) =>
  stepHandover(staff, params.id, await body(), key()),
)
