import { readBeginning, writeDraft } from '@/lib/audit/rules/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** What a new draft begins with: every threshold of the set that stands. */
export const GET = staffRoute('audit', ({ staff }) => readBeginning(staff))

/** Writes a draft; it changes nothing for any patient. */
export const POST = staffRoute('change-rules', async ({ staff, body, key }) =>
  writeDraft(staff, await body(), key()),
)
