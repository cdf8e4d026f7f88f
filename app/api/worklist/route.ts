import { staffRoute } from '@/lib/http/staff-route.ts'
import { readWorklist } from '@/lib/worklist/index.ts'

export const GET = staffRoute('read-worklist', ({ staff }) => readWorklist(staff))
