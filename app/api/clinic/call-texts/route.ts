import { staffRoute } from '@/lib/http/staff-route.ts'
import { readCallTexts, saveCallText } from '@/lib/intake/index.ts'

/** What a caller asks, advises and escalates for each finding, with every version. */
export const GET = staffRoute('edit-clinic', ({ staff }) => readCallTexts(staff))

/** A further version for one finding. */
export const POST = staffRoute('edit-clinic', async ({ staff, body, key }) =>
  saveCallText(staff, await body(), key()),
)
