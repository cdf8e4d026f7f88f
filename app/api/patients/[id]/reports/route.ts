import { staffRoute } from '@/lib/http/staff-route.ts'
import { receiveReport } from '@/lib/intake/index.ts'

/** A report that the patient gave on the phone. */
export const POST = staffRoute<{ id: string }>('enter-report', async ({ staff, params, body, key }) =>
  receiveReport({
    clinicId: staff.clinicId,
    patientId: params.id,
    door: 'phone-in',
    source: staff.id,
    by: staff.id,
    language: 'en',
    key: key(),
    body: await body(),
  }),
)
