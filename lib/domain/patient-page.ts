import { z } from 'zod'
import { StandingAdmission } from './admission.ts'
import { AlikePatient } from './alike.ts'
import { Assessment } from './assessment.ts'
import { OwnCallTexts } from './call-text.ts'
import { Callback } from './callback.ts'
import { PageLimits } from './day-limit.ts'
import { Escalation } from './escalation.ts'
import { Flag, FlagStep } from './flag.ts'
import { FollowUp } from './follow-up.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { MovedReport } from './move-report.ts'
import { NextTry } from './next-try-said.ts'
import { NoAnswerRule } from './no-answer.ts'
import { OrderDetails } from './order-details.ts'
import { PatientNote } from './patient-note.ts'
import { Profile } from './profile.ts'
import { Overrides, PatientRecord } from './record.ts'
import { FlagVerdict } from './review-page.ts'
import { Threshold } from './ruleset.ts'
import { KeptStaffEvent } from './staff-event.ts'
import { Reporter } from './submission.ts'
import { Visit } from './visit.ts'
import { Hold } from './worklist.ts'

/** One version of a drain's orders: when it came into force, why, and what the rules do not read of it. */
export const OrdersVersion = z.strictObject({
  version: z.number(),
  validFrom: Instant,
  recordedAt: Instant,
  by: z.string(),
  byId: z.string(),
  why: z.string().nullable(),
  /** What it changed of the version before it, each in words; of the first version nothing. */
  changes: z.array(z.string()),
  ...OrderDetails.required().shape,
  /** This drain's own thresholds, each with who set it, when and why. */
  overrides: z.array(
    z.strictObject({
      name: Overrides.keyof(),
      value: z.number(),
      by: z.string(),
      at: Instant,
      why: z.string(),
    }),
  ),
})
export type OrdersVersion = z.infer<typeof OrdersVersion>

/** A version that was taken back: it stays readable and is not in force. */
export const WithdrawnOrders = OrdersVersion.extend({
  drain: z.string(),
  withdrawnAt: Instant,
  withdrawnBy: z.string(),
})
export type WithdrawnOrders = z.infer<typeof WithdrawnOrders>

/** A visit with its newest step: who, when and why. */
export const PageVisit = Visit.extend({
  changedAt: Instant,
  changedBy: z.string(),
  why: z.string().nullable(),
})
export type PageVisit = z.infer<typeof PageVisit>

/** How far back a page reaches: over the last days, or over the whole record. */
export const PageReach = z.enum(['recent', 'whole'], { error: 'accepted: recent, whole' })
export type PageReach = z.infer<typeof PageReach>

/** How many calls, and how many notes, a page has at most: the latest. */
export const MOST_CALLS = 200

/** All that the coordinator sees of one patient, in one answer. */
export const PatientPage = z.strictObject({
  asOf: Instant,
  /**
   * How far back the page reaches: reports that were received, flags that opened, their steps and what the person on call was told
   * of after it. A flag that still stands is here though it opened earlier; so are all orders, events and visits.
   */
  from: Instant,
  patient: z.strictObject({
    id: z.string(),
    name: z.string(),
    birthDate: LocalDate,
    recordNumber: z.string(),
    phone: z.string().nullable(),
    language: z.string().nullable(),
    interpreter: z.boolean(),
    timeZone: TimeZone,
    /** Whom to call, and what weighs on a call; null where nobody was asked. */
    profile: Profile.nullable(),
  }),
  /** How follow-up stands: whether it has ended, and who asked to undo it. */
  followUp: FollowUp,
  /** The stay in hospital during which deadlines rest. */
  admission: StandingAdmission.nullable(),
  /** Why the patient stands on the worklist although nothing was waited for any more; null where that is not so. */
  lateWord: z.string().nullable(),
  /** Other patients of the clinic with a like name and birth date: not to be taken for this one. */
  alike: z.array(AlikePatient),
  clinic: z.strictObject({ id: z.string(), name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** Names of the drains as patient and team use them, and their sizes, by drain id. */
  labels: z.record(
    z.string(),
    z.strictObject({
      label: z.string(),
      frenchSize: z.number().nullable(),
      lengthMarkCm: z.number().nullable(),
    }),
  ),
  /** What is not in this answer, though it is in the record: reports, and the days before a date. Null: nothing. */
  leftOut: z.strictObject({ before: LocalDate, reports: z.number().int().positive() }).nullable(),
  /** The record as the rules read it at this instant, but for the reports that are left out. */
  record: PatientRecord,
  /** What the rules say of the whole record; the days that are left out are not among its days. */
  assessment: Assessment,
  /** What is ordered of each drain beyond what the rules read, by drain id; the version in force first. */
  orders: z.record(z.string(), z.array(OrdersVersion)),
  /** Versions that were taken back, the latest first. */
  withdrawnOrders: z.array(WithdrawnOrders),
  /** What staff did to the drains, the latest recorded first; what was withdrawn among it. */
  events: z.array(KeptStaffEvent),
  /** The thresholds that may be set for one drain: what the clinic's rule set says, and within what range. */
  thresholds: z.record(Overrides.keyof(), Threshold.pick({ value: true, min: true, max: true, unit: true })),
  /** Exchanges and removals, the latest changed first. */
  visits: z.array(PageVisit),
  /** The levels that a chart draws beside the days. */
  limits: PageLimits,
  /** Who gave each report, and the reporter's own words, by report id. */
  reports: z.record(
    z.string(),
    z.strictObject({
      reporter: Reporter,
      /** The name on the helper's link that it came by. */
      sentBy: z.string().nullable(),
      enteredBy: z.string().nullable(),
      note: z.string().nullable(),
    }),
  ),
  /** Reports that were moved to another patient or from one, the latest first. */
  moves: z.array(MovedReport),
  flags: z.array(Flag),
  steps: z.array(FlagStep),
  /** What the audit said of flags; left out where it said nothing of any. */
  verdicts: z.array(FlagVerdict).optional(),
  /** Calls, the latest first; those that were taken back or corrected among them. */
  callbacks: z.array(Callback),
  /** Notes without a call, the latest first; those that were taken back among them. */
  notes: z.array(PatientNote),
  /** What the clinic itself asks, advises and escalates, by finding. */
  callTexts: OwnCallTexts,
  /** The clinic's no-answer rule for what is most pressing now, and what it says is next; null: nothing stands, nothing was tried. */
  noAnswer: NoAnswerRule.nullable(),
  nextTry: NextTry.nullable(),
  /** What could not wait outside clinic hours, and who was told; the latest first. */
  escalations: z.array(Escalation),
  hold: Hold.nullable(),
})
export type PatientPage = z.infer<typeof PatientPage>
