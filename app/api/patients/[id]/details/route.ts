import { staffRoute } from '@/lib/http/staff-route.ts'
import { editPatient } from '@/lib/intake/index.ts'

/** A further version of what is known of a person. */
export const POST = staffRoute<{ id: string }>('edit-patient', async ({ staff, params, body, key }) =>
  editPatient(staff, params.id, await body(), key()),
)
