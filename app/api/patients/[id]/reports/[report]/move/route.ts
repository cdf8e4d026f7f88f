import { staffRoute } from '@/lib/http/staff-route.ts'
import { moveReport } from '@/lib/intake/index.ts'

/** A report that was filed under the wrong patient goes to the right one. */
export const POST = staffRoute<{ id: string; report: string }>(
  'move-report',
  async ({ staff, params, body, key }) => moveReport(staff, params.id, params.report, await body(), key()),
)
