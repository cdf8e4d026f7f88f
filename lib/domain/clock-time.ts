import { z } from 'zod'

/** A local time of day, `08:30`. */
export const ClockTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'accepted: a time of day such as 08:30')
export type ClockTime = z.infer<typeof ClockTime>
