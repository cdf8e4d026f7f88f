import { startReplay } from '@/lib/audit/replay/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** Starts a replay of a draft, or of a rule set, over days of the clinic's history. It changes nothing for any patient. */
export const POST = staffRoute('change-rules', async ({ staff, body, key }) =>
  startReplay(staff, await body(), key()),
)
