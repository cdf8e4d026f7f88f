import { z } from 'zod'
import { Instant, TimeZone } from './instant.ts'
import { Course, DrainKind } from './words.ts'

/** One measured emptying, as the person sent it: for 'last time you wrote', and to see a fall. */
export const EarlierReading = z.strictObject({
  at: Instant,
  volumeMl: z.number().nullable(),
})
export type EarlierReading = z.infer<typeof EarlierReading>

/** A drain that is in place, as its owner needs it to report. */
export const CheckInDrain = z.strictObject({
  id: z.string(),
  /** The plain name that person and team use for it: 'left kidney'. */
  label: z.string(),
  kind: DrainKind,
  course: Course,
  capped: z.boolean(),
  /** The order in force; null where no flush is ordered. */
  flush: z.strictObject({ volumeMl: z.number(), everyHours: z.number() }).nullable(),
  dressingEveryHours: z.number(),
  bagCapacityMl: z.number().nullable(),
  markMl: z.number().nullable(),
  /** Own readings of the last 7 days, oldest first; none from before the newest tube. */
  recent: z.array(EarlierReading),
})
export type CheckInDrain = z.infer<typeof CheckInDrain>

/**
 * All that a personal link shows: who to call, the drains to report on, and the person's own last
 * readings. No full name, no record number, nothing that staff wrote.
 */
export const CheckInView = z.strictObject({
  /** The server's time of the answer: a phone whose clock is wrong corrects its times by it. */
  asOf: Instant,
  clinic: z.strictObject({
    name: z.string(),
    phone: z.string(),
    afterHoursPhone: z.string().nullable(),
    demo: z.boolean(),
  }),
  patient: z.strictObject({
    /** Opaque and the same for each link of this person: what the phone keeps is kept under it, so that one
     * phone can serve two people and neither gets the other's answers. */
    id: z.string(),
    firstName: z.string(),
    timeZone: TimeZone,
  }),
  drains: z.array(CheckInDrain),
  lastReportAt: Instant.nullable(),
})
export type CheckInView = z.infer<typeof CheckInView>
