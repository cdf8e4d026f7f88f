import { saveReview } from '@/lib/audit/week/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

export const POST = staffRoute('audit', async ({ staff, body, key }) =>
  saveReview(staff, await body(), key()),
)
