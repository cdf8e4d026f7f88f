import { readItem } from '@/lib/audit/week/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** An item as it is read: without a word of which sort it is. */
export const GET = staffRoute<{ item: string }>('audit', ({ staff, params }) => readItem(staff, params.item))
