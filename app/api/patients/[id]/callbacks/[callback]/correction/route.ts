import { staffRoute } from '@/lib/http/staff-route.ts'
import { correctCallback } from '@/lib/worklist/index.ts'

export const POST = staffRoute<{ id: string; callback: string }>(
  'record-callback',
  async ({ staff, params, body, key }) =>
    correctCallback(staff, params.id, params.callback, await body(), key()),
)
