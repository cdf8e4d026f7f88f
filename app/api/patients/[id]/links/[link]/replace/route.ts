import { staffRoute } from '@/lib/http/staff-route.ts'
import { replaceLink } from '@/lib/intake/index.ts'

/** Puts a new link in the place of one that was lost; the old one ends at once. */
export const POST = staffRoute<{ id: string; link: string }>('edit-patient', async ({ staff, params, key }) =>
  replaceLink(staff, params.id, params.link, key()),
)
