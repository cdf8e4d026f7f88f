import { staffRoute } from '@/lib/http/staff-route.ts'
import { readAfterHours, saveAfterHoursTable } from '@/lib/worklist/index.ts'

/** Who is told of what by which way, in and outside opening hours. */
export const GET = staffRoute('edit-rota', ({ staff }) => readAfterHours(staff))

export const POST = staffRoute('edit-rota', async ({ staff, body, key }) =>
  saveAfterHoursTable(staff, await body(), key()),
)
