import { PAPER_MAX_BYTES } from '@/lib/domain/paper-sheet.ts'
import { readJson } from '@/lib/http/read-body.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { enterPaperLog } from '@/lib/intake/index.ts'

/** The rows of a paper log: looked at, or stored whole. */
export const POST = staffRoute<{ id: string }>('enter-report', async ({ staff, params, request, key }) =>
  enterPaperLog(staff, params.id, await readJson(request, PAPER_MAX_BYTES), key()),
)
