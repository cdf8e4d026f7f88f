import { z } from 'zod'
import { Day } from './assessment.ts'
import { Instant, TimeZone } from './instant.ts'
import { Reporter } from './submission.ts'

const heard = { report: z.string(), at: Instant, receivedAt: Instant }

/** A reading of a stretch. Where several stand at one instant, equal volumes count once. */
export const DerivedReading = z.strictObject({
  ...heard,
  volumeMl: z.number().nullable(),
  total: z.boolean(),
  /** The vessel was full: it may have been more. */
  atLeast: z.boolean(),
})
export type DerivedReading = z.infer<typeof DerivedReading>

/** A flush given in a stretch; one of an unknown volume is not subtracted. */
export const DerivedFlush = z.strictObject({ ...heard, volumeMl: z.number().nullable() })
export type DerivedFlush = z.infer<typeof DerivedFlush>

/** Why a volume is in doubt: more than the vessel can have held, or ounces and millilitres taken for one another. */
export const StretchDoubt = z.strictObject({
  why: z.enum(['bag', 'ounces']),
  /** What the usual output would have brought in the stretch. */
  expectedMl: z.number().nullable(),
})
export type StretchDoubt = z.infer<typeof StretchDoubt>

/** One stretch between two emptyings, and the part of it that falls in the day; null where it was not measured. */
export const DerivedStretch = z.strictObject({
  from: Instant,
  to: Instant,
  hours: z.number(),
  /** What it starts at: the reading before, a new tube or an uncapping, or enrolment. */
  startsAt: z.enum(['reading', 'tube', 'enrolment']),
  volumeMl: z.number().nullable(),
  flushedMl: z.number(),
  netMl: z.number().nullable(),
  /** Ordered flush volume that was due in it and not recorded. */
  missingFlushMl: z.number(),
  readings: z.array(DerivedReading),
  flushes: z.array(DerivedFlush),
  inDay: z.strictObject({ from: Instant, to: Instant, hours: z.number(), netMl: z.number().nullable() }),
  atLeast: z.boolean(),
  /** Too long to say on which day it came. */
  coarse: z.boolean(),
  doubts: z.array(StretchDoubt),
})
export type DerivedStretch = z.infer<typeof DerivedStretch>

/** A part of the day of which nothing is known. Unknown is never zero. */
export const DerivedGap = z.strictObject({
  from: Instant,
  to: Instant,
  hours: z.number(),
  why: z.enum(['before-first', 'not-measured', 'between', 'after-last', 'to-come']),
})
export type DerivedGap = z.infer<typeof DerivedGap>

/** A reading that enters no stretch, and why. */
export const LeftOutReading = z.strictObject({
  ...heard,
  volumeMl: z.number().nullable(),
  why: z.enum(['corrected', 'after-receipt', 'before-placement', 'covers-nothing']),
})
export type LeftOutReading = z.infer<typeof LeftOutReading>

/** How one day's net output of one drain came about. The parts of the stretches add up to `day.netMl`. */
export const DerivedDay = z.strictObject({
  drain: z.string(),
  start: Instant,
  end: Instant,
  /** The day as the assessment has it. */
  day: Day,
  /** From this coverage on a day counts as complete. */
  completeFrom: z.number(),
  stretches: z.array(DerivedStretch),
  gaps: z.array(DerivedGap),
  leftOut: z.array(LeftOutReading),
})
export type DerivedDay = z.infer<typeof DerivedDay>

/** The same with who gave each report. */
export const DayDerivation = DerivedDay.extend({
  asOf: Instant,
  ruleSet: z.string(),
  timeZone: TimeZone,
  reports: z.record(
    z.string(),
    z.strictObject({
      reporter: Reporter,
      sentBy: z.string().nullable(),
      enteredBy: z.string().nullable(),
      /** It corrects an earlier report. */
      corrects: z.boolean(),
    }),
  ),
})
export type DayDerivation = z.infer<typeof DayDerivation>
