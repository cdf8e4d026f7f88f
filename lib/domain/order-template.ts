import { z } from 'zod'
import { OrderDetails } from './order-details.ts'
import { Plan } from './record.ts'

/** What a clinic usually orders for a kind of drain: offered at enrolment, changed there for the one patient. */
export const OrderTemplate = z.strictObject({
  ...Plan.omit({ overrides: true }).shape,
  ...OrderDetails.shape,
})
export type OrderTemplate = z.infer<typeof OrderTemplate>
