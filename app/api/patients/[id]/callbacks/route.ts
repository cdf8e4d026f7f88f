import { staffRoute } from '@/lib/http/staff-route.ts'
import { recordCallback } from '@/lib/worklist/index.ts'

export const POST = staffRoute<{ id: string }>('record-callback', async ({ staff, params, body, key }) =>
  recordCallback(staff, params.id, await body(), key()),
)
