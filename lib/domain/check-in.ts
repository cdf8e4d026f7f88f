import { z } from 'zod'
import { AdviceName, AdviceText } from './advice-text.ts'
import { ClinicHours } from './clinic-hours.ts'
import { Instant, TimeZone } from './instant.ts'
import { Language } from './languages.ts'
import { Submission } from './submission.ts'
import { Vessel } from './vessel.ts'
import { Appearance, Course, DrainKind, Side } from './words.ts'

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
  side: Side.nullable(),
  course: Course,
  capped: z.boolean(),
  /** Of the newest tube. */
  placedAt: Instant,
  usualAppearance: Appearance.nullable(),
  /** The order in force; null where no flush is ordered. */
  flush: z.strictObject({ volumeMl: z.number(), everyHours: z.number() }).nullable(),
  dressingEveryHours: z.number(),
  vessel: Vessel.nullable(),
  bagCapacityMl: z.number().nullable(),
  markMl: z.number().nullable(),
  /** How many measured readings of this drain were ever sent: the unit is confirmed on the first three. */
  readings: z.number(),
  /** Own readings of the last 7 days, oldest first; none from before the newest tube. */
  recent: z.array(EarlierReading),
})
export type CheckInDrain = z.infer<typeof CheckInDrain>

/** A report of the last two days that the holder of this link may correct, newest first; corrected ones are left out. */
export const OwnReport = z.strictObject({
  report: z.string(),
  receivedAt: Instant,
  sentBy: z.string().nullable(),
  body: Submission,
})
export type OwnReport = z.infer<typeof OwnReport>

/**
 * All that a personal link shows: who to call, the drains to report on, and the person's own last
 * entries. No full name, no record number, nothing that staff wrote.
 */
export const CheckInView = z.strictObject({
  /** The server's time of the answer: a phone whose clock is wrong corrects its times by it. */
  asOf: Instant,
  clinic: z.strictObject({
    id: z.string(),
    name: z.string(),
    phone: z.string(),
    afterHoursPhone: z.string().nullable(),
    timeZone: TimeZone,
    /** Null where the clinic has not said when somebody reads. */
    hours: ClinicHours.nullable(),
    demo: z.boolean(),
  }),
  patient: z.strictObject({
    /** Opaque and the same for each link of this person: what the phone keeps is kept under it, so that one
     * phone can serve two people and neither gets the other's answers. */
    id: z.string(),
    firstName: z.string(),
    timeZone: TimeZone,
    language: Language,
  }),
  /** Whose link this is. A link that may not see earlier entries gets none. */
  sender: z.strictObject({
    kind: z.enum(['patient', 'helper']),
    name: z.string().nullable(),
    maySee: z.boolean(),
  }),
  /** The most cautious thresholds in force for this person, for advice on the phone. */
  limits: z.strictObject({ feverC: z.number(), severePain: z.number() }),
  /** The clinic's words of advice, per language. */
  texts: z.record(Language, z.record(AdviceName, AdviceText)),
  drains: z.array(CheckInDrain),
  ownReports: z.array(OwnReport),
  lastReportAt: Instant.nullable(),
  /** Whether a member of staff opened the patient's page after that report, and when. */
  lastReadAt: Instant.nullable(),
  /** Set when follow-up has ended: the page says so and whom to call, and still takes a report. */
  followUpEndedAt: Instant.nullable(),
})
export type CheckInView = z.infer<typeof CheckInView>
