import { z } from 'zod'

/** A level of a drain's daily net output that a rule looks at, as a chart draws it, in this drain's own numbers. */
export const DayLimit = z.strictObject({
  mlPerDay: z.number(),
  side: z.enum(['below', 'above']),
  /** What it is: 'call below 205, half of usual'. */
  says: z.string(),
})
export type DayLimit = z.infer<typeof DayLimit>

/** The levels of a patient's page: fever, and each drain's own by its id. */
export const PageLimits = z.strictObject({
  feverC: z.number(),
  drains: z.record(z.string(), z.array(DayLimit)),
})
export type PageLimits = z.infer<typeof PageLimits>
