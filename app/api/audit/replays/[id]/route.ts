import { cancelReplay, readReplay } from '@/lib/audit/replay/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

type Params = { id: string }

/** How far a replay is, and what it found. */
export const GET = staffRoute<Params>('audit', ({ staff, params }) => readReplay(staff, params.id))

/** Cancels it; one that is over stays as it is. */
export const DELETE = staffRoute<Params>('change-rules', ({ staff, params }) =>
  cancelReplay(staff, params.id),
)
