import { staffRoute } from '@/lib/http/staff-route.ts'
import { stepVisit } from '@/lib/intake/index.ts'

/** A step of a visit: requested, booked, done or called off. */
export const POST = staffRoute<{ id: string }>('book-visit', async ({ staff, params, body, key }) =>
  stepVisit(staff, params.id, await body(), key()),
)
