import { staffRoute } from '@/lib/http/staff-route.ts'
import { undoCallback } from '@/lib/worklist/index.ts'

/** Takes a call back within its minute. Pressed twice it is taken back once: the call itself is the key. */
export const POST = staffRoute<{ id: string; callback: string }>('record-callback', ({ staff, params }) =>
  undoCallback(staff, params.id, params.callback),
)
