import { staffRoute } from '@/lib/http/staff-route.ts'
import { undoStaffEvent } from '@/lib/worklist/index.ts'

/** Takes an event back within its minute. Pressed twice it is taken back once: the event itself is the key. */
export const POST = staffRoute<{ id: string; event: string }>('record-staff-event', ({ staff, params }) =>
  undoStaffEvent(staff, params.id, params.event),
)
