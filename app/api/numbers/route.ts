import { staffRoute } from '@/lib/http/staff-route.ts'
import { readNumbers } from '@/lib/worklist/numbers.ts'

export const GET = staffRoute('read-numbers', ({ staff }) => readNumbers(staff))
