import { readWeeks } from '@/lib/audit/week/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

export const GET = staffRoute('audit', ({ staff }) => readWeeks(staff))
