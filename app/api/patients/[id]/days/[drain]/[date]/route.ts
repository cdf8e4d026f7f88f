import { staffRoute } from '@/lib/http/staff-route.ts'
import { readDayDerivation } from '@/lib/worklist/day-derivation.ts'

/** How one day's net output of one drain came about, to the mL. */
export const GET = staffRoute<{ id: string; drain: string; date: string }>(
  'read-patient',
  ({ staff, params }) => readDayDerivation(staff, params.id, params.drain, params.date),
)
