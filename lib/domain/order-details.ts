import { z } from 'zod'
import { ClockTime } from './clock-time.ts'
import { Vessel } from './vessel.ts'

const words = (most: number) => z.string().trim().max(most, `accepted: at most ${most} characters`).nullish()

/** What is ordered for a drain beyond what the rules read. */
export const OrderDetails = z.strictObject({
  vessel: Vessel.nullish(),
  /** Local times of day at which to flush. */
  flushAt: z.array(ClockTime).max(12, 'accepted: at most 12 times').nullish(),
  dressingType: words(100),
  removalPlan: words(300),
})
export type OrderDetails = z.infer<typeof OrderDetails>
