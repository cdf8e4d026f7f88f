/**
 * How widely does Kendall's S scatter where there is no trend?
 *
 * Method: [n(n − 1)(2n + 5) − Σ t(t − 1)(2t + 5)] / 18 over the groups of t equal values; of pairs, groups of equal
 * x are taken off in the same way.
 * Units: none. Assumptions: finite numbers (the caller has looked); −0 and 0 are equal.
 * Source: Kendall 1975; Sen, J Am Stat Assoc 1968;63:1379 (both from memory; the same as in SciPy `theilslopes`).
 *
 * @example kendallVariance([1, 2, 3]) // 3.6666666666666665
 * @example kendallVariance([5, 5, 5]) // 0
 */
export function kendallVariance(...lists: readonly (readonly number[])[]): number {
  const term = (n: number) => n * (n - 1) * (2 * n + 5)
  let total = term(lists[0]?.length ?? 0)
  for (const list of lists) {
    const groups = new Map<number, number>()
    for (const value of list) groups.set(value, (groups.get(value) ?? 0) + 1)
    for (const size of groups.values()) total -= term(size)
  }
  return Math.max(0, total) / 18
}
