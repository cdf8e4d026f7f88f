import { staffRoute } from '@/lib/http/staff-route.ts'
import { keepPreference, readPreference } from '@/lib/worklist/index.ts'

type Named = { name: string }

/** What the one who is signed in has chosen under a name. */
export const GET = staffRoute<Named>('read-worklist', ({ staff, params }) =>
  readPreference(staff, params.name),
)

/** Remembers it; the same again changes nothing. */
export const PUT = staffRoute<Named>('read-worklist', async ({ staff, params, body }) =>
  keepPreference(staff, params.name, await body()),
)
