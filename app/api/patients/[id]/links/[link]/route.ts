import { staffRoute } from '@/lib/http/staff-route.ts'
import { revokeLink } from '@/lib/intake/index.ts'

/** Ends one link with its sessions. */
export const DELETE = staffRoute<{ id: string; link: string }>('edit-patient', ({ staff, params }) =>
  revokeLink(staff, params.id, params.link),
)
