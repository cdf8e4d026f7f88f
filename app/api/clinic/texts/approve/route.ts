import { staffRoute } from '@/lib/http/staff-route.ts'
import { approveAdviceText } from '@/lib/intake/index.ts'

/** Makes a version the one that patients read. */
export const POST = staffRoute('approve-text', async ({ staff, body, key }) =>
  approveAdviceText(staff, await body(), key()),
)
