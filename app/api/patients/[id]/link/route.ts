import { staffRoute } from '@/lib/http/staff-route.ts'
import { issueLinkOnce, revokeLinks } from '@/lib/intake/index.ts'

/** A further personal link, shown once. */
export const POST = staffRoute<{ id: string }>('enrol', async ({ staff, params, key }) =>
  issueLinkOnce(staff, params.id, key()),
)

/** Revokes every link of the patient, and every session that one opened. */
export const DELETE = staffRoute<{ id: string }>('enrol', ({ staff, params }) =>
  revokeLinks(staff, params.id),
)
