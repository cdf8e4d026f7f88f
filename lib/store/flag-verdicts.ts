import { type FlagVerdict, standingOf } from '../domain/review-page.ts'
import type { Tx } from './client.ts'
import { flagItemsOf } from './review-items.ts'
import { reviewsOf } from './reviews.ts'
import { grouped } from './rows.ts'
import { staffNamesOf } from './staff-names.ts'

/**
 * The verdicts that hold on some flags of a clinic. One that awaits its second reading or its settling is not among
 * them: whoever reads second may look at the patient's page.
 */
export async function verdictsOfFlags(
  tx: Tx,
  clinicId: string,
  flagIds: readonly string[],
): Promise<FlagVerdict[]> {
  const { rows: items } = await flagItemsOf(tx, clinicId, flagIds)
  if (items.length === 0) return []
  const ids = items.map(({ id }) => id)
  const reviews = grouped((await reviewsOf(tx, ids)).rows, ({ itemId }) => itemId)
  const names = await staffNamesOf(tx, clinicId)
  return items.flatMap(({ id, twice, flagId }) => {
    const { counts } = standingOf(twice, reviews.get(id) ?? [])
    if (!counts || flagId === null) return []
    const { verdict, truly, harm, note, byId, at } = counts
    return [{ flagId, verdict, truly, harm, note, by: names.get(byId) ?? byId, at }]
  })
}
