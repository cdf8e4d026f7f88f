import { staffRoute } from '@/lib/http/staff-route.ts'
import { takeFirstFree } from '@/lib/worklist/index.ts'

/** Takes the first row that nobody has. */
export const POST = staffRoute('take-row', ({ staff, key }) => takeFirstFree(staff, key()))
