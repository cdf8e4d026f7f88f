import { z } from 'zod'
import { OrderDetails } from './order-details.ts'
import { Drain, Plan } from './record.ts'
import { DrainKind } from './words.ts'

/** What a clinic usually orders for a kind of drain: offered at enrolment, changed there for the one patient. */
export const OrderTemplate = z.strictObject({
  ...Plan.omit({ overrides: true }).shape,
  ...OrderDetails.shape,
  bagCapacityMl: Drain.shape.bagCapacityMl,
  markMl: Drain.shape.markMl,
})
export type OrderTemplate = z.infer<typeof OrderTemplate>

/** A further version of what a clinic usually orders for a kind. */
export const NewOrderTemplate = z.strictObject({ kind: DrainKind, orders: OrderTemplate })
export type NewOrderTemplate = z.infer<typeof NewOrderTemplate>

/** The orders of a kind as they are offered now, and who set each version when; none: the standard ones. */
export type KindTemplate = {
  kind: DrainKind
  orders: OrderTemplate
  versions: { version: number; at: string; by: string; orders: OrderTemplate }[]
}
