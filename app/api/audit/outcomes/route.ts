import { readOutcomes } from '@/lib/audit/outcomes/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

export const GET = staffRoute('record-outside-event', ({ staff }) => readOutcomes(staff))
