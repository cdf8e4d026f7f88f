import { staffRoute } from '@/lib/http/staff-route.ts'
import { readClinicSettings, saveClinicSettings } from '@/lib/intake/index.ts'

/** What the clinic's staff set of it: numbers, opening hours, quiet hours. */
export const GET = staffRoute('edit-clinic', ({ staff }) => readClinicSettings(staff))

export const POST = staffRoute('edit-clinic', async ({ staff, body, key }) =>
  saveClinicSettings(staff, await body(), key()),
)
