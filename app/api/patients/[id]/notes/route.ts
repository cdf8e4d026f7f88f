import { staffRoute } from '@/lib/http/staff-route.ts'
import { writeNote } from '@/lib/worklist/index.ts'

/** Writes a note without a call. */
export const POST = staffRoute<{ id: string }>('write-note', async ({ staff, params, body, key }) =>
  writeNote(staff, params.id, await body(), key()),
)
