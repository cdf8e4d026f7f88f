import { staffRoute } from '@/lib/http/staff-route.ts'
import { correctDrain } from '@/lib/intake/index.ts'

/** Corrects what a drain was enrolled as, with the reason. */
export const POST = staffRoute<{ id: string; drain: string }>(
  'edit-patient',
  async ({ staff, params, body, key }) => correctDrain(staff, params.id, params.drain, await body(), key()),
)
