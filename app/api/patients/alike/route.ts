import { staffRoute } from '@/lib/http/staff-route.ts'
import { readAlike } from '@/lib/intake/index.ts'

/** Who may be the same person as somebody about to be enrolled. Name and birth date are in the body: an address is kept in logs. */
export const POST = staffRoute('enrol', async ({ staff, body }) => readAlike(staff, await body()))
