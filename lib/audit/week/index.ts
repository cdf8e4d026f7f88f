/*
 * The week: drawn once, read blind, opened, settled. Each takes the member of staff, what was sent, a key for what
 * stores, and the instant.
 *
 *   drawWeek(staff, week, now)                     → { items } of an ended week, drawn on the first call
 *   readWeeks(staff, now)                          → Weeks
 *   readWeek(staff, week, now)                     → WeekPage, drawn if it was not
 *   readItem(staff, itemId, now)                   → ItemPage: blind, the reading that the reader may give
 *   saveReview(staff, { item, reading, verdict, truly, harm, note }, key, now) → ReviewSaved
 *   openItem(staff, itemId, key, now)              → Happened, once the reader has given a verdict
 *   verdictsOnMyCalls(staff, now)                  → CallVerdict[]
 */
export { drawWeek } from './draw-week.ts'
export { verdictsOnMyCalls } from './my-verdicts.ts'
export { openItem } from './open-item.ts'
export { readItem } from './read-item.ts'
export { readWeek, readWeeks } from './read-week.ts'
export { saveReview } from './save-review.ts'
