import { staffRoute } from '@/lib/http/staff-route.ts'
import { noteHandOutPrinted } from '@/lib/intake/hand-out.ts'

/** Notes that the page for a patient is printed. */
export const POST = staffRoute<{ id: string }>('read-patient', async ({ staff, params, body }) =>
  noteHandOutPrinted(staff, params.id, await body()),
)
