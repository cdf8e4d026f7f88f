/**
 * A finding's sentence in two parts: what was reported, which the eye should meet first, and what it was
 * compared with. The sentence itself is left as it is: both parts together are it.
 * @example emphasis('Net output 140 mL in the 24 h to Tue 06:50, 34% of the usual 410 mL/day.')
 * // ['Net output 140 mL', ' in the 24 h to Tue 06:50, 34% of the usual 410 mL/day.']
 */
export function emphasis(says: string): [lead: string, rest: string] {
  const cut = says.search(
    / in the \d|, (?!\d\d:\d\d)|; | \(| (?:was |were )?reported (?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)| since | is ordered/,
  )
  return cut <= 0 ? [says, ''] : [says.slice(0, cut), says.slice(cut)]
}
