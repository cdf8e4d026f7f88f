import { staffRoute } from '@/lib/http/staff-route.ts'
import { enrol } from '@/lib/intake/index.ts'

export const POST = staffRoute('enrol', async ({ staff, body, key }) => enrol(staff, await body(), key()))
