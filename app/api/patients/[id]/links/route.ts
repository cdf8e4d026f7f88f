import { staffRoute } from '@/lib/http/staff-route.ts'
import { listLinks } from '@/lib/intake/index.ts'

/** The patient's links: whose, since when, when last opened, how long they live. */
export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params }) =>
  listLinks(staff, params.id),
)
