import { namePrimary } from '@/lib/audit/figures/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** Names the figure that the clinic judges itself by, for the weeks that begin afterwards. */
export const POST = staffRoute('audit', async ({ staff, body, key }) =>
  namePrimary(staff, await body(), key()),
)
