import type { Urgency } from '../../domain/words.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { localTime, noted, threshold } from './telling.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

/** Newest log of a drain: its last reading; for a capped drain, which gives none, the last report. Null before the first. */
const lastLog = (drain: DrainView): number | null =>
  drain.tube.cappedSince !== null ? drain.view.lastReportAt : drain.lastReadingAt

/**
 * Has nothing been heard for longer than ordered?
 * Silence is never read as wellness: sooner in the first days, while something pressing stands, and for an only kidney.
 */
export const logMissed: DrainRule = {
  code: 'log-missed',
  scope: 'drain',
  judge(drain, at, others) {
    const { view, facts, limits, tube } = drain
    const { zone, enrolledAt } = view.record
    const log = lastLog(drain)
    const base = Math.max(log ?? Number.NEGATIVE_INFINITY, tube.start, enrolledAt)
    const due = base + facts.plan.logEveryHours * HOUR_MS
    const [soft, hard] = facts.onlyKidney
      ? [due + limits.logOnlyKidneyGraceHours * HOUR_MS, due + limits.logOnlyKidneyLateHours * HOUR_MS]
      : [due + limits.logGraceHours * HOUR_MS, due + limits.logLateHours * HOUR_MS]
    const never =
      log === null
        ? Math.max(enrolledAt, facts.placedAt) + limits.logNeverHours * HOUR_MS
        : Number.POSITIVE_INFINITY
    const ahead = [soft, hard, never].filter((t) => t > at)
    let next = ahead.length > 0 ? Math.min(...ahead) : Number.POSITIVE_INFINITY
    if (at < soft && at < never) return quiet(next)

    let urgency: Exclude<Urgency, 'none'> = 'within-3d'
    if (facts.onlyKidney) urgency = at >= hard ? 'within-1h' : 'within-24h'
    else if (at >= hard || at >= never) urgency = 'within-24h'
    else if (soft < tube.placedOrReplaced + limits.earlyDays * DAY_MS) urgency = 'within-24h'
    else {
      const standing = others()
      if (standing.rank >= 3) urgency = 'within-24h'
      next = Math.min(next, standing.next)
    }
    return found(
      urgency,
      () => ({
        says:
          log === null
            ? `Nothing logged since ${localTime(zone, base)}; a log is ordered every ${facts.plan.logEveryHours} h.`
            : `Last log ${localTime(zone, log)}; a log is ordered every ${facts.plan.logEveryHours} h, and was due by ${localTime(zone, due)}.`,
        ends: 'It ends when the drain is logged again; silence is not read as wellness.',
        evidence: [noted(base, log === null ? 'start' : 'last log', null)],
        threshold: threshold(
          facts.onlyKidney ? 'logOnlyKidneyGraceHours' : log === null ? 'logNeverHours' : 'logGraceHours',
          limits,
        ),
      }),
      next,
      'upkeep',
    )
  },
}
