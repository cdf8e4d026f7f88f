import { staffRoute } from '@/lib/http/staff-route.ts'
import { issueLinkOnce, revokeLinks } from '@/lib/intake/index.ts'

/** A further personal link, shown once: the patient's, or with a body a helper's own. */
export const POST = staffRoute<{ id: string }>(
  'edit-patient',
  async ({ staff, params, request, body, key }) =>
    issueLinkOnce(staff, params.id, key(), hasBody(request) ? await body() : undefined),
)

const hasBody = ({ body, headers }: Request) => body !== null && headers.get('content-length') !== '0'

/** Revokes every link of the patient, and every session that one opened. */
export const DELETE = staffRoute<{ id: string }>('edit-patient', ({ staff, params }) =>
  revokeLinks(staff, params.id),
)
