import { z } from 'zod'
import { ClinicHours } from './clinic-hours.ts'
import { ClockTime } from './clock-time.ts'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { Language } from './languages.ts'
import { Vessel } from './vessel.ts'
import { VisitKind, VisitState } from './visit.ts'
import { Course, DrainKind, Side } from './words.ts'

/** A visit that is asked for or booked, as the hand-out names it. */
export const HandOutVisit = z.strictObject({
  kind: VisitKind,
  state: VisitState,
  bookedFor: Instant.nullable(),
})
export type HandOutVisit = z.infer<typeof HandOutVisit>

/** A drain that is in place, with its orders in force. Volumes in mL, intervals in hours and days. */
export const HandOutDrain = z.strictObject({
  id: z.string(),
  label: z.string(),
  kind: DrainKind,
  side: Side.nullable(),
  course: Course,
  capped: z.boolean(),
  vessel: Vessel.nullable(),
  lengthMarkCm: z.number().nullable(),
  logEveryHours: z.number(),
  dressingEveryHours: z.number(),
  dressingType: z.string().nullable(),
  flush: z.strictObject({ volumeMl: z.number(), everyHours: z.number(), at: z.array(ClockTime) }).nullable(),
  exchangeEveryDays: z.number().nullable(),
  removalPlan: z.string().nullable(),
  visits: z.array(HandOutVisit),
})
export type HandOutDrain = z.infer<typeof HandOutDrain>

/** All that the printed page for a patient needs, as of one instant. */
export const HandOut = z.strictObject({
  asOf: Instant,
  clinic: z.strictObject({
    name: z.string(),
    phone: z.string(),
    afterHoursPhone: z.string().nullable(),
    timeZone: TimeZone,
    /** Null where the clinic has not said when somebody reads. */
    hours: ClinicHours.nullable(),
    demo: z.boolean(),
  }),
  patient: z.strictObject({
    id: z.string(),
    name: z.string(),
    birthDate: LocalDate,
    timeZone: TimeZone,
    language: Language,
  }),
  /** The most cautious fever threshold of this person's drains, in °C. */
  feverC: z.number(),
  drains: z.array(HandOutDrain),
})
export type HandOut = z.infer<typeof HandOut>

/** What is noted of a print. */
export const HandOutPrint = z.strictObject({
  language: Language,
  link: z.boolean({ error: 'accepted: true where the print carries a link, else false' }),
})
