import { z } from 'zod'
import { LocalDate } from './instant.ts'

/** The slow-change chart of one drain, in mL a day: a moving average of its latest whole days, and the limit under which it is a signal. */
export const SlowChange = z.strictObject({
  drain: z.string(),
  /** Null where no chart can be drawn; `why` then says why. */
  chart: z
    .strictObject({
      /** The drain's own level before the charted days. */
      centreMl: z.number(),
      limitMl: z.number(),
      days: z.array(z.strictObject({ date: LocalDate, averageMl: z.number() })),
    })
    .nullable(),
  why: z.string().nullable(),
})
export type SlowChange = z.infer<typeof SlowChange>

/** Those of one patient's drains. */
export const SlowChanges = z.array(SlowChange)
export type SlowChanges = z.infer<typeof SlowChanges>
