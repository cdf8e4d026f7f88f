import { staffRoute } from '@/lib/http/staff-route.ts'
import { setAsideDischarge } from '@/lib/intake/index.ts'

/** Sets somebody aside who is not to be enrolled. */
export const POST = staffRoute<{ id: string }>('keep-discharges', async ({ staff, params, body, key }) =>
  setAsideDischarge(staff, params.id, await body(), key()),
)
