import { staffRoute } from '@/lib/http/staff-route.ts'
import { takeBackNote } from '@/lib/worklist/index.ts'

/** Takes a note back within its minute. Pressed twice it is taken back once: the note itself is the key. */
export const POST = staffRoute<{ id: string; note: string }>('write-note', ({ staff, params }) =>
  takeBackNote(staff, params.id, params.note),
)
