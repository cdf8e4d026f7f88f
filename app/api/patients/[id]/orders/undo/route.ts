import { z } from 'zod'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { undoOrders } from '@/lib/intake/index.ts'

const Version = z.strictObject({
  drain: z.string('accepted: the id of a drain of this patient'),
  version: z.number('accepted: the version of the orders').int().positive(),
})

/** Takes a change of orders back within its minute. Pressed twice it is taken back once: the version itself is the key. */
export const POST = staffRoute<{ id: string }>('change-orders', async ({ staff, params, body }) => {
  const { drain, version } = Version.parse(await body())
  return undoOrders(staff, params.id, drain, version)
})
