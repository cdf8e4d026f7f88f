import { staffRoute } from '@/lib/http/staff-route.ts'
import { noteCallSheetTaken } from '@/lib/worklist/index.ts'

/** Notes that the call sheet is printed or copied. */
export const POST = staffRoute<{ id: string }>('read-patient', async ({ staff, params, body }) =>
  noteCallSheetTaken(staff, params.id, await body()),
)
