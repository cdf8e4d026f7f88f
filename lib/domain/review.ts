import { z } from 'zod'
import { Instant, LocalDate } from './instant.ts'

/** What the reader says of a call that was asked for, or of a day on which none was. */
export const Verdict = z.enum(['warranted', 'warranted-late', 'not-warranted', 'cannot-tell'], {
  error: 'accepted: warranted, warranted-late, not-warranted, cannot-tell',
})
export type Verdict = z.infer<typeof Verdict>

/** What was really the matter; which of them fit a drain depends on its kind. */
export const Truly = z.enum(
  [
    'obstruction',
    'dislodgement',
    'leak-at-site',
    'infection',
    'bleeding',
    'pain',
    'dehydration',
    'fistula',
    'recurrence',
    'improving',
    'upkeep-missed',
    'wrong-reading',
    'other-illness',
    'nothing',
    'other',
  ],
  { error: 'accepted: one of the list of what was really the matter' },
)
export type Truly = z.infer<typeof Truly>

export const Harm = z.enum(['none', 'minor', 'serious', 'unknown'], {
  error: 'accepted: none, minor, serious, unknown',
})
export type Harm = z.infer<typeof Harm>

/** What an item was drawn from. Flags: all of the two pressing urgencies, a share of the rest; days: by whether anything was heard. */
export const Stratum = z.enum(['at-once', 'within-1h', 'rest', 'day-heard', 'day-silent'])
export type Stratum = z.infer<typeof Stratum>

/** One thing to be read in a week's audit. `probability` is the chance with which it was drawn from its stratum, in (0, 1]. */
export const ReviewItem = z.strictObject({
  id: z.string(),
  /** The Monday of the week, in the clinic's zone. */
  week: LocalDate,
  kind: z.enum(['flag', 'day']),
  patientId: z.string(),
  drain: z.string().nullable(),
  flagId: z.string().nullable(),
  /** The instant that is judged: the flag's opening, or one within the day, so that it does not tell which sort it is. */
  at: Instant,
  stratum: Stratum,
  probability: z.number().gt(0).max(1),
  twice: z.boolean(),
  ordinal: z.number(),
})
export type ReviewItem = z.infer<typeof ReviewItem>

/** 1: the first reading, 2: the second, blind to the first, 3: what settles the two. */
export const ReadingNo = z.union([z.literal(1), z.literal(2), z.literal(3)], {
  error: 'accepted: 1, 2, 3',
})
export type ReadingNo = z.infer<typeof ReadingNo>

export const Review = z.strictObject({
  id: z.string(),
  itemId: z.string(),
  reading: ReadingNo,
  verdict: Verdict,
  truly: Truly.nullable(),
  harm: Harm,
  note: z.string().nullable(),
  /** Whether calls and outcomes had been opened before it was given. */
  isOpened: z.boolean(),
  at: Instant,
  byId: z.string(),
})
export type Review = z.infer<typeof Review>
