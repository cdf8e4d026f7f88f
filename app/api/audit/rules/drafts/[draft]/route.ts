import { readDraft, stepDraft } from '@/lib/audit/rules/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

type Params = { draft: string }

export const GET = staffRoute<Params>('audit', ({ staff, params }) => readDraft(staff, params.draft))

/** One step: a change, the proposal, the approval, the second look, its coming into force, its end. */
export const POST = staffRoute<Params>('change-rules', async ({ staff, params, body, key }) =>
  stepDraft(staff, params.draft, await body(), key()),
)
