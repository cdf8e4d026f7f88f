import { type Review, Verdict } from '../../domain/review.ts'
import { blindOf } from '../../domain/review-page.ts'
import type { Agreement } from '../../domain/week-page.ts'
import { agreement } from '../statistics/agreement.ts'

const kinds = Verdict.options

/** How far two blind readings agree. What was changed after calls, outcomes or the other reading could be seen is no longer blind. */
export function agreementOf(byItem: readonly { patientId: string; reviews: readonly Review[] }[]): Agreement {
  const both = byItem.flatMap(({ patientId, reviews }) => {
    const first = blindOf(reviews, 1)
    const second = blindOf(reviews, 2)
    return first && second
      ? [
          {
            first: kinds.indexOf(first.verdict),
            second: kinds.indexOf(second.verdict),
            cluster: patientId,
          },
        ]
      : []
  })
  const n = both.length
  const same = both.filter(({ first, second }) => first === second).length
  if (n === 0) return { n, same, kappa: null, ac1: null, prevalence: [] }
  const { kappa, ac1, prevalence } = agreement(both, kinds.length)
  return {
    n,
    same,
    kappa: kappa && { value: kappa.value, low: kappa.low, high: kappa.high },
    ac1,
    prevalence: kinds.map((verdict, i) => ({ verdict, share: prevalence[i] ?? 0 })),
  }
}
