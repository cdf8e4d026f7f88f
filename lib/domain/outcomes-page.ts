import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import {
  EventMatch,
  InquiryAbout,
  InquiryAnswer,
  NewOutsideEvent,
  OutsideEvent,
  type OutsideEventKind,
} from './outside-event.ts'
import { DrainKind } from './words.ts'

/** What became of a patient is asked so many days after enrolment, and at the end. */
export const INQUIRY_DAYS = 30

export const outsideEventLabels: Readonly<Record<OutsideEventKind, string>> = {
  'emergency-visit': 'Emergency visit',
  admission: 'Admission',
  exchange: 'Exchange elsewhere',
  obstruction: 'Obstruction found',
  infection: 'Infection proven',
  dislodgement: 'Dislodgement',
  bleeding: 'Bleeding',
  leak: 'Leak',
  death: 'Death',
  other: 'Something else',
}

export const inquiryLabels: Readonly<Record<InquiryAbout, string>> = {
  '30-days': 'By 30 days',
  end: 'By the end of follow-up',
}

export const answerLabels: Readonly<Record<InquiryAnswer, string>> = {
  events: 'Events',
  none: 'None',
  unknown: 'Not known',
}

/** The answer to what became of a patient, with the events that it brings; those on record need not be named again. */
export const NewInquiryAnswer = z.strictObject({
  about: InquiryAbout,
  answer: InquiryAnswer,
  note: z.string().trim().max(2000, 'accepted: at most 2000 characters').nullish(),
  events: z.array(NewOutsideEvent).max(50, 'accepted: at most 50 events at once').optional(),
})
export type NewInquiryAnswer = z.infer<typeof NewInquiryAnswer>

export const WithdrawEvent = z.strictObject({
  why: z
    .string({ error: 'accepted: a reason' })
    .trim()
    .min(1, 'accepted: a reason')
    .max(500, 'accepted: at most 500 characters'),
})
export type WithdrawEvent = z.infer<typeof WithdrawEvent>

export const OutcomeDrain = z.strictObject({
  id: z.string(),
  label: z.string(),
  kind: DrainKind,
  placedAt: Instant,
})
export type OutcomeDrain = z.infer<typeof OutcomeDrain>

const person = {
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  timeZone: TimeZone,
}

/** One patient of whom it is due to ask. */
export const DueInquiry = z.strictObject({
  ...person,
  about: InquiryAbout,
  enrolledAt: Instant,
  /** Since when it is due: 30 days after enrolment, or the end of follow-up. */
  since: Instant,
  drains: z.array(OutcomeDrain),
  /** Events on record that fall into the time that is asked about. */
  known: z.number(),
})
export type DueInquiry = z.infer<typeof DueInquiry>

/** An event with whose it is, and how it stands to the flags before it; `found` is the name of the flag that answers it. */
export const ShownEvent = z.strictObject({
  ...person,
  event: OutsideEvent,
  drain: z.string().nullable(),
  match: EventMatch.nullable(),
  found: z.string().nullable(),
})
export type ShownEvent = z.infer<typeof ShownEvent>

export const OutcomesPage = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({ id: z.string(), name: z.string(), timeZone: TimeZone, demo: z.boolean() }),
  /** The longest due first, at most as many as are shown; and how many there are. */
  due: z.array(DueInquiry),
  dueInAll: z.number(),
  answered: z.array(z.strictObject({ answer: InquiryAnswer, n: z.number() })),
  /** The latest that were recorded, withdrawn ones too. */
  events: z.array(ShownEvent),
})
export type OutcomesPage = z.infer<typeof OutcomesPage>

/** What the form for one patient needs, whether or not anything is due. */
export const OutcomePatient = z.strictObject({
  ...person,
  enrolledAt: Instant,
  /** A death that is recorded ends it. */
  inFollowUp: z.boolean(),
  drains: z.array(OutcomeDrain),
  due: z.array(InquiryAbout),
  events: z.array(OutsideEvent),
})
export type OutcomePatient = z.infer<typeof OutcomePatient>

export const OutcomeSaved = z.strictObject({
  events: z.array(z.string()),
  answer: z.string().nullable(),
  /** Follow-up ended with it: a death of a patient who was in follow-up. Left out where it did not. */
  endedFollowUp: z.boolean().optional(),
})
export type OutcomeSaved = z.infer<typeof OutcomeSaved>
