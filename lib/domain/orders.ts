import { z } from 'zod'
import { OrderDetails } from './order-details.ts'
import { Drain, Overrides, Plan } from './record.ts'

const { logEveryHours, dressingEveryHours, flush, exchangeEveryDays } = Plan.shape
const { course, drainage, bagCapacityMl, markMl } = Drain.shape
const name = Overrides.shape

/**
 * A change of one drain's orders. What is left out stays as it was; null ends an order. Of the drain's own
 * thresholds a number sets one and null takes it back to the rule set's. The old version is kept.
 */
export const NewOrders = z.strictObject({
  /** Why: it is kept beside the version and beside each threshold that it sets. */
  why: z
    .string({ error: 'accepted: a reason' })
    .trim()
    .min(1, 'accepted: a reason')
    .max(500, 'accepted: at most 500 characters'),
  course,
  drainage,
  bagCapacityMl,
  markMl,
  ...OrderDetails.shape,
  logEveryHours: logEveryHours.optional(),
  dressingEveryHours: dressingEveryHours.optional(),
  flush,
  exchangeEveryDays,
  overrides: z
    .strictObject({
      declineRatio: name.declineRatio.nullable(),
      stoppedHours: name.stoppedHours.nullable(),
      feverC: name.feverC.nullable(),
      severePain: name.severePain.nullable(),
    })
    .optional(),
})
export type NewOrders = z.infer<typeof NewOrders>
