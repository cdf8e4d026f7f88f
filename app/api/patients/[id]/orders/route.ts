import { z } from 'zod'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { changeOrders } from '@/lib/intake/index.ts'

const OfDrain = z.looseObject({ drain: z.string('accepted: the id of a drain of this patient') })

/** New orders of one drain, as a further version; `drain` names it. */
export const POST = staffRoute<{ id: string }>('change-orders', async ({ staff, params, body, key }) => {
  const { drain, ...orders } = OfDrain.parse(await body())
  return changeOrders(staff, params.id, drain, orders, key())
})
