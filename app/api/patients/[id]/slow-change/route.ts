import { staffRoute } from '@/lib/http/staff-route.ts'
import { readSlowChange } from '@/lib/worklist/index.ts'

/** The slow-change charts that an open page asks for. */
export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params }) =>
  readSlowChange(staff, params.id),
)
