import { type DrainRule, found, quiet } from './rule.ts'
import { localTime, noted, threshold } from './telling.ts'

const HOUR_MS = 3_600_000

/** Was an ordered flush not recorded for two intervals? A reminder: the flush may have been given and not written down. */
export const flushMissed: DrainRule = {
  code: 'flush-missed',
  scope: 'drain',
  judge(drain, at) {
    const order = drain.facts.plan.flush
    if (!order) return quiet()
    const { view, limits, tube } = drain
    const last = view
      .seen(drain.facts.flushes)
      .reduce(
        (latest, s) => Math.max(latest, Math.min(s.at, s.receivedAt)),
        Math.max(tube.start, view.record.enrolledAt),
      )
    const due = last + limits.flushMissedIntervals * order.everyHours * HOUR_MS
    if (at < due) return quiet(due)
    return found(
      'within-3d',
      () => ({
        says: `No flush recorded since ${localTime(view.record.zone, last)}; ${order.volumeMl} mL are ordered every ${order.everyHours} h.`,
        ends: 'It ends when a flush is recorded.',
        evidence: [noted(last, 'last flush, or start', null)],
        threshold: threshold('flushMissedIntervals', limits),
      }),
      undefined,
      'upkeep',
    )
  },
}
