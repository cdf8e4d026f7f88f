const DAY = '(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)'

/** Where a sentence turns from what was reported to when, how long and against what. */
const TURN = new RegExp(
  `(?: (?:was |were )?reported)? ${DAY} \\d| in the \\d|, (?!\\d\\d:)|; | \\(| recorded since| since `,
  'g',
)
/** Words that need what follows: no sentence turns after one of them. */
const LEANS = /\b(?:of|for|on|to|by|from|in|the)$/

/**
 * A finding's sentence in two parts: what was reported, which the eye should meet first, and what it was
 * compared with. The sentence itself is left as it is: both parts together are it.
 * @example emphasis('Net output 140 mL in the 24 h to Tue 24 Nov, 06:50, 34% of the usual 410 mL/day.')
 * // ['Net output 140 mL', ' in the 24 h to Tue 24 Nov, 06:50, 34% of the usual 410 mL/day.']
 */
export function emphasis(says: string): [lead: string, rest: string] {
  for (const { index } of says.matchAll(TURN)) {
    const lead = says.slice(0, index)
    if (index > 0 && !LEANS.test(lead)) return [lead, says.slice(index)]
  }
  return [says, '']
}
