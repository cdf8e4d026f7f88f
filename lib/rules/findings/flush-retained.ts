import { atMost } from '../compare.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { mL, readingsOf, threshold } from './telling.ts'

/**
 * Does the flush stay inside?
 * Net output clearly below zero on both of the latest two complete days, one after the other.
 * Source of the sign: Univ. Utah IR, a retained flush makes the net negative.
 */
export const flushRetained: DrainRule = {
  code: 'flush-retained',
  scope: 'drain',
  judge(drain) {
    if (drain.tube.cappedSince !== null) return quiet()
    const { limits, output } = drain
    const [before, last] = output.complete.slice(-2)
    if (!before || !last || before.end !== last.start) return quiet()
    if (!atMost(before.netMl, -limits.flushRetainedMl) || !atMost(last.netMl, -limits.flushRetainedMl))
      return quiet()
    return found('within-24h', () => ({
      says: `Net output ${mL(before.netMl)} on ${before.date} and ${mL(last.netMl)} on ${last.date}: less came out than was flushed in (limit −${limits.flushRetainedMl} mL on both).`,
      ends: 'It ends with a complete day above the limit, or with a new tube.',
      evidence: readingsOf([...new Set([...before.from, ...last.from])].flatMap((i) => output.own[i] ?? [])),
      threshold: threshold('flushRetainedMl', limits),
    }))
  },
}
