import { staffRoute } from '@/lib/http/staff-route.ts'
import { readOrderTemplates, saveOrderTemplate } from '@/lib/intake/index.ts'

export const GET = staffRoute('edit-clinic', ({ staff }) => readOrderTemplates(staff))

/** A further version of what the clinic usually orders for a kind. */
export const POST = staffRoute('edit-clinic', async ({ staff, body, key }) =>
  saveOrderTemplate(staff, await body(), key()),
)
