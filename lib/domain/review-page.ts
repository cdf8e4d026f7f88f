import { z } from 'zod'
import { Instant } from './instant.ts'
import { isBiliary, isUrinary } from './kinds.ts'
import { Harm, ReadingNo, type Review, type Stratum, Truly, Verdict } from './review.ts'
import type { DrainKind } from './words.ts'

/** One verdict as a reader gives it; the same reading again is a change of it, and both are kept. */
export const NewReview = z.strictObject({
  item: z.string({ error: 'accepted: the id of an item of a week' }),
  reading: ReadingNo,
  verdict: Verdict,
  truly: Truly.nullish(),
  harm: Harm,
  note: z.string().trim().max(2000, 'accepted: at most 2000 characters').nullish(),
})
export type NewReview = z.infer<typeof NewReview>

export const ReviewSaved = z.strictObject({
  review: z.string(),
  reading: ReadingNo,
  isOpened: z.boolean(),
})
export type ReviewSaved = z.infer<typeof ReviewSaved>

/** A verdict as it reaches whoever called: beside the flag that it judges. */
export const FlagVerdict = z.strictObject({
  flagId: z.string(),
  verdict: Verdict,
  truly: Truly.nullable(),
  harm: Harm,
  note: z.string().nullable(),
  by: z.string(),
  at: Instant,
})
export type FlagVerdict = z.infer<typeof FlagVerdict>

export const verdictLabels: Readonly<Record<Verdict, string>> = {
  warranted: 'Warranted',
  'warranted-late': 'Warranted, but late',
  'not-warranted': 'Not warranted',
  'cannot-tell': 'Cannot tell',
}

export const trulyLabels: Readonly<Record<Truly, string>> = {
  obstruction: 'Obstruction',
  dislodgement: 'Dislodgement',
  'leak-at-site': 'Leak at the site',
  infection: 'Infection',
  bleeding: 'Bleeding',
  pain: 'Pain',
  dehydration: 'Dehydration',
  fistula: 'Fistula',
  recurrence: 'Recurrence of the collection',
  improving: 'Getting better as intended',
  'upkeep-missed': 'Care or log missed',
  'wrong-reading': 'Wrong reading',
  'other-illness': 'Another illness',
  nothing: 'Nothing',
  other: 'Something else',
}

export const harmLabels: Readonly<Record<Harm, string>> = {
  none: 'No harm',
  minor: 'Minor harm',
  serious: 'Serious harm',
  unknown: 'Not known',
}

export const stratumLabels: Readonly<Record<Stratum, string>> = {
  'at-once': 'flags at once',
  'within-1h': 'flags within 1 hour',
  rest: 'other flags',
  'day-heard': 'days without a flag, heard',
  'day-silent': 'days without a flag, not heard',
}

/** What can be the matter only with some drains. Local choice. */
const onlyOf: Readonly<Partial<Record<Truly, (kind: DrainKind) => boolean>>> = {
  dehydration: (kind) => isUrinary(kind) || isBiliary(kind),
  fistula: (kind) => kind === 'collection' || kind === 'bulb' || kind === 'pleural',
  recurrence: (kind) => kind === 'collection' || kind === 'bulb' || kind === 'pleural',
  improving: (kind) => kind === 'collection' || kind === 'bulb' || kind === 'pleural',
}

/** What can really be the matter with somebody who has drains of these kinds, in the order of the list. */
export const trulyFor = (kinds: readonly DrainKind[]): Truly[] =>
  Truly.options.filter((truly) => kinds.some(onlyOf[truly] ?? (() => true)))

/** How the readings of one item stand. `counts` is the verdict that holds, null while a reading or a settling is awaited. */
export type Standing<T = Review> = {
  state: 'unread' | 'once' | 'awaits-second' | 'agreed' | 'disagreed' | 'settled'
  counts: T | null
}

/** What of a review says how the readings stand. */
type Given = Pick<Review, 'reading' | 'verdict' | 'isOpened'>

/** Of one reading the newest verdict; the reviews in the order in which they were given. */
export const newestOf = <T extends Given>(reviews: readonly T[], reading: ReadingNo): T | null =>
  reviews.findLast((review) => review.reading === reading) ?? null

/**
 * Of one reading the newest verdict that was given blind: before calls and outcomes were opened, and before both readings had been
 * given, since from then on whoever changes one may have seen the other. Of these agreement is told.
 */
export function blindOf<T extends Given>(reviews: readonly T[], reading: ReadingNo): T | null {
  const second = reviews.findIndex((review) => review.reading === 2)
  const before = second < 0 ? reviews : reviews.slice(0, second + 1)
  return before.findLast((review) => review.reading === reading && !review.isOpened) ?? null
}

/** @param reviews of one item, in the order in which they were given */
export function standingOf<T extends Given>(isTwice: boolean, reviews: readonly T[]): Standing<T> {
  const first = newestOf(reviews, 1)
  const second = newestOf(reviews, 2)
  const third = newestOf(reviews, 3)
  if (!first) return { state: 'unread', counts: null }
  if (!isTwice) return { state: 'once', counts: first }
  if (!second) return { state: 'awaits-second', counts: null }
  if (first.verdict === second.verdict) return { state: 'agreed', counts: first }
  return third ? { state: 'settled', counts: third } : { state: 'disagreed', counts: null }
}
