import { staffRoute } from '@/lib/http/staff-route.ts'
import { openHandover } from '@/lib/worklist/handover.ts'
import { readHandover } from '@/lib/worklist/read-handover.ts'

/** The page for the next shift, as it stands. */
export const GET = staffRoute('hand-over', ({ staff }) => readHandover(staff))

/** Opens a handover: whoever asks gives it. */
export const POST = staffRoute('hand-over', async ({ staff, body, key }) =>
  openHandover(staff, await body(), key()),
)
