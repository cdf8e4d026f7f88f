import { staffRoute } from '@/lib/http/staff-route.ts'
import { addToDischarges, readDischarges } from '@/lib/intake/index.ts'

export const GET = staffRoute('keep-discharges', ({ staff }) => readDischarges(staff))

/** One more who went home with a drain. */
export const POST = staffRoute('keep-discharges', async ({ staff, body, key }) =>
  addToDischarges(staff, await body(), key()),
)
