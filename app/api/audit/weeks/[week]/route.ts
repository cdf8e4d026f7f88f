import { readWeek } from '@/lib/audit/week/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** A week that is over; whoever asks first draws it. */
export const GET = staffRoute<{ week: string }>('audit', ({ staff, params }) => readWeek(staff, params.week))
