import { z } from 'zod'
import { Instant, LocalDate, TimeZone } from './instant.ts'
import { addDays, instantOf, localDate } from './local-time.ts'
import { Harm, ReadingNo, Review, Stratum, Truly, Verdict } from './review.ts'
import { FlagVerdict } from './review-page.ts'
import { DrainKind } from './words.ts'

/** After so many days one person may read an item a second time, where there is nobody else. */
export const FORTNIGHT_DAYS = 14
/** How far an item's reader sees back and ahead of its instant, in days. */
export const DAYS_BEFORE = 14
export const DAYS_AFTER = 7
/** Seconds that one reading takes, about; local choice, to be set right by what it takes. */
export const READING_SECONDS = 40

/** The Monday of a local date's week. */
export const mondayOf = (date: LocalDate): LocalDate =>
  addDays(date, -((new Date(Date.parse(date)).getUTCDay() + 6) % 7))

/** When a week begins and ends in a zone, in ms; it ends with the beginning of the next. */
export const weekSpan = (week: LocalDate, zone: string): { fromMs: number; untilMs: number } => ({
  fromMs: Date.parse(instantOf(`${week}T00:00`, zone) ?? ''),
  untilMs: Date.parse(instantOf(`${addDays(week, 7)}T00:00`, zone) ?? ''),
})

/** The Monday of the last week that is over. */
export const lastEndedWeek = (now: Instant | number, zone: string): LocalDate =>
  addDays(mondayOf(localDate(now, zone)), -7)

const Clinic = z.strictObject({ id: z.string(), name: z.string(), timeZone: TimeZone, demo: z.boolean() })

/** How the readings of a week stand, in numbers. */
export const WeekLine = z.strictObject({
  week: LocalDate,
  isDrawn: z.boolean(),
  items: z.number(),
  read: z.number(),
  twice: z.number(),
  readTwice: z.number(),
  /** Read twice with two verdicts, and not settled. */
  disagreed: z.number(),
  /** What whoever asks can read now. */
  mine: z.number(),
})
export type WeekLine = z.infer<typeof WeekLine>

/** Agreement of two blind readings over the items that were read twice, within the weeks that are shown. */
export const Agreement = z.strictObject({
  n: z.number(),
  same: z.number(),
  /** Cohen's kappa; null where nothing was read twice, or chance alone would agree on all. */
  kappa: z.strictObject({ value: z.number(), low: z.number(), high: z.number() }).nullable(),
  ac1: z.number().nullable(),
  /** Of all readings the share of each verdict. */
  prevalence: z.array(z.strictObject({ verdict: Verdict, share: z.number() })),
})
export type Agreement = z.infer<typeof Agreement>

export const Weeks = z.strictObject({
  asOf: Instant,
  clinic: Clinic,
  /** The latest first. */
  weeks: z.array(WeekLine),
  agreement: Agreement,
  /** How many people of the clinic may read. */
  readers: z.number(),
})
export type Weeks = z.infer<typeof Weeks>

/** What whoever asks may do with an item now. */
export const Task = z.enum(['read', 'read-again', 'settle', 'none'])
export type Task = z.infer<typeof Task>

/** One item as the list of a week names it: without a word of what it was drawn from. */
export const WeekItem = z.strictObject({
  id: z.string(),
  n: z.number(),
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  date: LocalDate,
  task: Task,
  /** From when on a reading that is due can be given. */
  notBefore: Instant.nullable(),
  /** The newest verdict of whoever asks, of any reading of theirs. */
  own: Verdict.nullable(),
  /** The verdict that holds; null while one is awaited, or whoever asks is still to read it blind. */
  counts: Verdict.nullable(),
})
export type WeekItem = z.infer<typeof WeekItem>

export const Share = z.strictObject({ stratum: Stratum, drawn: z.number(), of: z.number() })
export type Share = z.infer<typeof Share>

/** A week that was drawn. */
export const WeekPage = z.strictObject({
  asOf: Instant,
  clinic: Clinic,
  week: LocalDate,
  drawnAt: Instant.nullable(),
  drawnBy: z.string().nullable(),
  /** About how long its first readings take. */
  minutes: z.number(),
  shares: z.array(Share),
  items: z.array(WeekItem),
  readers: z.number(),
})
export type WeekPage = z.infer<typeof WeekPage>

const Cell = z.strictObject({ date: LocalDate, netMl: z.number().nullable(), coverage: z.number() })

/** One local day of each drain as it was known at one instant, and what was said and done. */
export const Told = z.strictObject({
  until: Instant,
  days: z.array(z.strictObject({ drain: z.string(), days: z.array(Cell) })),
  reports: z.array(
    z.strictObject({ receivedAt: Instant, lines: z.array(z.string()), words: z.string().nullable() }),
  ),
  events: z.array(z.strictObject({ at: Instant, says: z.string() })),
})
export type Told = z.infer<typeof Told>

/** An item as it is read first: the record as it was known, and what became known in the days after. */
export const ItemPage = z.strictObject({
  item: z.string(),
  week: LocalDate,
  patient: z.strictObject({
    id: z.string(),
    name: z.string(),
    birthDate: LocalDate,
    recordNumber: z.string(),
    timeZone: TimeZone,
  }),
  clinicZone: TimeZone,
  at: Instant,
  drains: z.array(
    z.strictObject({
      id: z.string(),
      label: z.string(),
      kind: DrainKind,
      placedAt: Instant,
      isRemoved: z.boolean(),
      isCapped: z.boolean(),
      usualMlPerDay: z.number().nullable(),
      orders: z.string(),
    }),
  ),
  known: Told,
  after: Told,
  /** From which share of its hours on a day is complete, by the rules that were in force then. */
  completeFrom: z.number(),
  /** Whether all the days after have passed. */
  afterIsWhole: z.boolean(),
  choices: z.array(Truly),
  task: Task,
  /** The reading that a verdict of whoever asks would be; null where they have nothing to say. */
  reading: ReadingNo.nullable(),
  notBefore: Instant.nullable(),
  /** The verdicts of whoever asks in that reading, in order. */
  own: z.array(Review),
  /** Of a disagreement the two verdicts that are to be settled, without names. */
  toSettle: z.array(
    z.strictObject({
      reading: ReadingNo,
      verdict: Verdict,
      truly: Truly.nullable(),
      harm: Harm,
      note: z.string().nullable(),
    }),
  ),
  /** Whether one of those two is of whoever asks: only where there is no third reader. */
  settlesOwn: z.boolean(),
})
export type ItemPage = z.infer<typeof ItemPage>

/** What opens after a verdict: what the item was, who called, and what came of it. */
export const Happened = z.strictObject({
  item: z.string(),
  stratum: Stratum,
  probability: z.number(),
  flag: z
    .strictObject({
      name: z.string(),
      drain: z.string().nullable(),
      urgency: z.string(),
      openedAt: Instant,
      actBy: Instant,
      says: z.string(),
      state: z.string(),
      ruleSet: z.string().nullable(),
      /** Whether it had ended by itself before the verdict; the verdict counts all the same. */
      hadEnded: z.boolean(),
      steps: z.array(z.strictObject({ at: Instant, says: z.string() })),
    })
    .nullable(),
  /** Other flags that opened from the day before to the last of the days after. */
  others: z.array(z.strictObject({ at: Instant, says: z.string() })),
  calls: z.array(z.strictObject({ at: Instant, by: z.string(), says: z.string(), note: z.string() })),
  events: z.array(z.strictObject({ at: Instant, says: z.string() })),
})
export type Happened = z.infer<typeof Happened>

/** A verdict on a flag for which whoever asks has called. */
export const CallVerdict = FlagVerdict.extend({
  patientId: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
  flag: z.string(),
  openedAt: Instant,
})
export type CallVerdict = z.infer<typeof CallVerdict>
