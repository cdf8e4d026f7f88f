import { readMinutes, signMinutes } from '@/lib/audit/minutes/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

type Params = { week: string }

/** A week's minutes as they stand, and as they were signed. */
export const GET = staffRoute<Params>('audit', ({ staff, params }) => readMinutes(staff, params.week))

/** Signs them, or amends what was signed. */
export const POST = staffRoute<Params>('audit', async ({ staff, params, body, key }) =>
  signMinutes(staff, params.week, await body(), key()),
)
