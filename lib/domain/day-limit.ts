import { z } from 'zod'

/** A level of a drain's daily net output that a rule looks at, as a chart draws it, in this drain's own numbers. */
export const DayLimit = z.strictObject({
  mlPerDay: z.number(),
  side: z.enum(['below', 'above']),
  /** What it is: 'call below 205, half of usual'. */
  says: z.string(),
})
export type DayLimit = z.infer<typeof DayLimit>

/** The levels of a patient's page: fever, from which share of its hours on a day is complete, and each drain's own by its id. */
export const PageLimits = z.strictObject({
  feverC: z.number(),
  completeFrom: z.number(),
  drains: z.record(z.string(), z.array(DayLimit)),
})
export type PageLimits = z.infer<typeof PageLimits>

/** Whether so much of a day is known that it counts as a whole one, as the rules have it. */
export const isComplete = (coverage: number, { completeFrom }: Pick<PageLimits, 'completeFrom'>): boolean =>
  coverage >= completeFrom - 1e-9
