import { staffRoute } from '@/lib/http/staff-route.ts'
import { addToRota, readRota } from '@/lib/worklist/index.ts'

/** Who is on call from when to when, and where nobody is. */
export const GET = staffRoute('edit-rota', ({ staff }) => readRota(staff))

export const POST = staffRoute('edit-rota', async ({ staff, body, key }) =>
  addToRota(staff, await body(), key()),
)
