import { goBack } from '@/lib/audit/rules/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** Puts a set that was in force before in force again. */
export const POST = staffRoute('change-rules', async ({ staff, body, key }) =>
  goBack(staff, await body(), key()),
)
