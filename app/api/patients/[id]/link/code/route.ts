import { staffRoute } from '@/lib/http/staff-route.ts'
import { issueRenewalCode } from '@/lib/intake/index.ts'

/** A code to be read out on the phone, by which the patient renews a link. */
export const POST = staffRoute<{ id: string }>('edit-patient', async ({ staff, params, key }) =>
  issueRenewalCode(staff, params.id, key()),
)
