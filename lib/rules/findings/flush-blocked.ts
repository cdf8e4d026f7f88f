import type { Ease } from '../../domain/words.ts'
import type { Stated } from '../series/prepare.ts'
import { ofSeries } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, stated, teaching } from './telling.ts'

/** The newest flush of this tube that says how it went, if it was blocked. */
function blockedFlush(drain: DrainView): Stated<Ease> | null {
  const newest = drain.view.newest(drain.facts.eases)
  return newest?.value === 'blocked' && ofSeries(drain.tube, newest.when) ? newest : null
}

/** Could the drain not be flushed, the last time that it was tried? */
export const flushBlocked: DrainRule = {
  code: 'flush-blocked',
  scope: 'drain',
  judge(drain) {
    const blocked = blockedFlush(drain)
    if (!blocked) return quiet()
    return found('within-24h', () => ({
      says: `The flush of ${localTime(drain.view.record.zone, blocked.at)} was reported blocked.`,
      ends: 'It ends when a newer flush is reported easy or stiff, or with a new tube.',
      evidence: [stated(blocked, 'flush', 'blocked')],
      threshold: criterion('ease', 'blocked', teaching, 'common practice, no source'),
    }))
  },
}
