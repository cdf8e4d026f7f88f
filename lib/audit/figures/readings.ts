import type { Verdict } from '../../domain/review.ts'
import type { ReadItem } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'

/** Something that was drawn and read: the newest verdict of each reading, and what holds in the end. */
export type Read = Pick<
  ReadItem,
  'item' | 'week' | 'kind' | 'patientId' | 'code' | 'stratum' | 'probability'
> & {
  first: Verdict | null
  second: Verdict | null
  /** Null where two readings differ and nobody has settled them. */
  verdict: Verdict | null
}

/** Verdicts, the newest last, by what they are about. What settles two readings goes before both. */
export function readingsOf(verdicts: readonly ReadItem[]): Read[] {
  return [...grouped(verdicts, ({ item }) => item).values()].flatMap((own) => {
    const [head] = own
    if (!head) return []
    const newest = (no: number) => own.findLast(({ reading }) => reading === no)?.verdict ?? null
    const first = newest(1)
    const second = newest(2)
    const differ = first !== null && second !== null && first !== second
    const { item, week, kind, patientId, code, stratum, probability } = head
    return [
      {
        item,
        week,
        kind,
        patientId,
        code,
        stratum,
        probability,
        first,
        second,
        verdict: newest(3) ?? (differ ? null : (first ?? second)),
      },
    ]
  })
}
