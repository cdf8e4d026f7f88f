import type { Verdict } from '../../domain/review.ts'
import { blindOf, standingOf } from '../../domain/review-page.ts'
import type { ReadItem } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'

/** Something that was drawn and read. */
export type Read = Pick<
  ReadItem,
  'item' | 'week' | 'kind' | 'patientId' | 'code' | 'nature' | 'stratum' | 'probability'
> & {
  /** The verdicts of both readings, given blind: of these agreement is told. */
  first: Verdict | null
  second: Verdict | null
  /** What holds; null while a second reading is awaited, or two differ and nobody has settled them. */
  verdict: Verdict | null
}

/** Verdicts, the newest last, by what they are about. */
export function readingsOf(verdicts: readonly ReadItem[]): Read[] {
  return [...grouped(verdicts, ({ item }) => item).values()].flatMap((own) => {
    const [head] = own
    if (!head) return []
    const { item, week, kind, patientId, code, nature, stratum, probability, twice } = head
    return [
      {
        ...{ item, week, kind, patientId, code, nature, stratum, probability },
        first: blindOf(own, 1)?.verdict ?? null,
        second: blindOf(own, 2)?.verdict ?? null,
        verdict: standingOf(twice, own).counts?.verdict ?? null,
      },
    ]
  })
}
