import type { ReadingNo, Review } from '../../domain/review.ts'
import { newestOf, standingOf } from '../../domain/review-page.ts'
import { FORTNIGHT_DAYS, type Task } from '../../domain/week-page.ts'

/** What somebody may do with an item: the reading that a verdict of theirs would be now, and from when on. */
export type Turn = { task: Task; reading: ReadingNo | null; notBefore: string | null }

/** From when on whoever read first may read a second time, where there is nobody else. */
export const secondFrom = (first: Review): string =>
  new Date(Date.parse(first.at) + FORTNIGHT_DAYS * 86_400_000).toISOString()

/** Who may settle two verdicts: anybody who gave neither; one of the two only where there is nobody else. */
export const settlers = (readers: readonly string[], first: Review, second: Review): readonly string[] => {
  const third = readers.filter((id) => id !== first.byId && id !== second.byId)
  return third.length > 0 ? third : readers
}

/**
 * @param readers the ids of all who may read in the clinic
 * @param reviews of one item, in the order in which they were given
 */
export function turnOf(
  isTwice: boolean,
  reviews: readonly Review[],
  self: string,
  readers: readonly string[],
  now: Date,
): Turn {
  const first = newestOf(reviews, 1)
  const second = newestOf(reviews, 2)
  if (!first) return { task: 'read', reading: 1, notBefore: null }
  const mine = reviews.findLast(({ byId }) => byId === self)?.reading ?? null
  const none: Turn = { task: 'none', reading: mine, notBefore: null }
  if (isTwice && !second) {
    if (first.byId !== self) return { task: 'read-again', reading: 2, notBefore: null }
    if (readers.some((id) => id !== self)) return none
    const notBefore = secondFrom(first)
    return Date.parse(notBefore) <= now.getTime()
      ? { task: 'read-again', reading: 2, notBefore }
      : { ...none, notBefore }
  }
  const isOpen = standingOf(isTwice, reviews).state === 'disagreed'
  if (second && isOpen && settlers(readers, first, second).includes(self))
    return { task: 'settle', reading: 3, notBefore: null }
  return none
}
