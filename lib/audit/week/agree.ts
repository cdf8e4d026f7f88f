import { type Review, Verdict } from '../../domain/review.ts'
import { blindOf } from '../../domain/review-page.ts'
import type { Agreement } from '../../domain/week-page.ts'
import { agreement } from '../statistics/agreement.ts'

const kinds = Verdict.options

/** How far two blind readings agree. What was changed after calls and outcomes were opened is no longer blind. */
export function agreementOf(byItem: readonly (readonly Review[])[]): Agreement {
  const table = kinds.map(() => kinds.map(() => 0))
  let n = 0
  let same = 0
  for (const reviews of byItem) {
    const first = blindOf(reviews, 1)
    const second = blindOf(reviews, 2)
    if (!first || !second) continue
    n += 1
    if (first.verdict === second.verdict) same += 1
    const row = table[kinds.indexOf(first.verdict)]
    const at = kinds.indexOf(second.verdict)
    if (row) row[at] = (row[at] ?? 0) + 1
  }
  if (n === 0) return { n, same, kappa: null, ac1: null, prevalence: [] }
  const { kappa, ac1, prevalence } = agreement(table)
  return {
    n,
    same,
    kappa: kappa && { value: kappa.value, low: kappa.low, high: kappa.high },
    ac1,
    prevalence: kinds.map((verdict, i) => ({ verdict, share: prevalence[i] ?? 0 })),
  }
}
