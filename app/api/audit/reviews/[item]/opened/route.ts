import { openItem } from '@/lib/audit/week/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** What happened, once a verdict was given; that it was opened is kept. */
export const POST = staffRoute<{ item: string }>('audit', ({ staff, params, key }) =>
  openItem(staff, params.item, key()),
)
