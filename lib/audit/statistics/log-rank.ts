import { inOrder, type Waited } from './kaplan-meier.ts'
import { normalTail } from './normal-tail.ts'

export type LogRank = {
  readonly observed: readonly [number, number]
  readonly expected: readonly [number, number]
  readonly chiSquared: number
  /** Two-sided. */
  readonly p: number
}

/**
 * Do two groups wait for as long?
 *
 * Method: log-rank test with the hypergeometric variance, one degree of freedom. Assumptions: each person is in it once;
 * censoring is alike in both. Source: Mantel, Cancer Chemother Rep 1966;50:163; Peto and Peto, J R Stat Soc A 1972;135:185;
 * R `survdiff(Surv(time, event) ~ group)`.
 *
 * @returns null where nothing happened, or one group is empty: nothing to compare.
 * @throws RangeError on a time that is negative or not finite.
 */
export function logRank(one: readonly Waited[], other: readonly Waited[]): LogRank | null {
  const all = inOrder([
    ...one.map((wait) => ({ ...wait, first: true })),
    ...other.map((wait) => ({ ...wait, first: false })),
  ])
  let left = one.length
  let observed = 0
  let expected = 0
  let variance = 0
  let happened = 0
  for (let i = 0; i < all.length; ) {
    const time = all[i]?.time
    const atRisk = all.length - i
    const atRiskFirst = left
    let events = 0
    for (; i < all.length && all[i]?.time === time; i++) {
      const wait = all[i]
      if (wait?.first) left--
      if (!wait?.event) continue
      events++
      if (wait.first) observed++
    }
    if (events === 0) continue
    happened += events
    const share = atRiskFirst / atRisk
    expected += events * share
    if (atRisk > 1) variance += (events * share * (1 - share) * (atRisk - events)) / (atRisk - 1)
  }
  if (!(variance > 0)) return null
  const chiSquared = (observed - expected) ** 2 / variance
  return {
    observed: [observed, happened - observed],
    expected: [expected, happened - expected],
    chiSquared,
    p: 2 * normalTail(Math.sqrt(chiSquared)),
  }
}
