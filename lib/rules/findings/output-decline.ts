import { atLeast, less } from '../compare.ts'
import { comparable, type Last24 } from '../series/output.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { slowDecline } from './slow-decline.ts'
import { localTime, mL, netOutput, percent, threshold } from './telling.ts'

/** The 24 h up to the i-th stretch, where they fell far below the baseline; null otherwise, and where it cannot be told. */
export function abruptDecline(drain: DrainView, i: number): Last24 | null {
  if (drain.course !== 'steady' || i < 0) return null
  const last = drain.output.last24At(i)
  const usual = last.baseline.mlPerDay
  if (usual === null || !comparable(last, drain.limits)) return null
  const fell =
    atLeast(usual - last.netMl, drain.limits.declineMinMl) &&
    less(last.netMl, drain.limits.declineRatio * usual)
  return fell ? last : null
}

/**
 * Does a drain that should keep draining bring much less than its usual?
 * Abrupt: the last 24 h under a share of the baseline, and clearly below it. Slow: a sustained shift of
 * whole days on a control chart with memory. Never over a stretch that is too long to date, or unknown hours.
 */
export const outputDecline: DrainRule = {
  code: 'output-decline',
  scope: 'drain',
  judge(drain) {
    if (drain.tube.cappedSince !== null || drain.course !== 'steady') return quiet()
    const last = abruptDecline(drain, drain.output.count - 1)
    if (last) {
      const usual = last.baseline.mlPerDay as number
      return found(drain.facts.internalExternal ? 'within-24h' : 'within-1h', () => ({
        says: `Net output ${mL(last.netMl)} in the 24 h to ${localTime(drain.view.record.zone, last.end)}, ${percent(last.netMl / usual)} of this drain's usual ${mL(usual)}/day${last.baseline.from === 'ward' ? ' (provisional: the ward’s figure)' : ''}; limit ${percent(drain.limits.declineRatio)}.`,
        ends: `It ends when 24 h again bring ${mL(drain.limits.declineRatio * usual)} or more, or with a new tube.`,
        evidence: netOutput(last.netMl, last.end, last.used),
        threshold: threshold('declineRatio', drain.limits),
      }))
    }
    const slow = slowDecline(drain)
    if (!slow) return quiet()
    return found('within-24h', () => slow.tell())
  },
}
