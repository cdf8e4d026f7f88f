import { readRules } from '@/lib/audit/rules/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** The clinic's rule sets, its drafts, and what was set for single drains. */
export const GET = staffRoute('audit', ({ staff }) => readRules(staff))
