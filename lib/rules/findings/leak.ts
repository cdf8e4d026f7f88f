import type { Stated } from '../series/prepare.ts'
import { ofSeries } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, stated, teaching } from './telling.ts'

/** The newest statement on leaking, if it says that the site leaks and speaks of this tube. */
export function leaking(drain: DrainView): Stated<boolean> | null {
  const newest = drain.view.newest(drain.facts.leaks)
  return newest?.value && ofSeries(drain.tube, newest.when) ? newest : null
}

/** Does fluid come out beside the tube? The newest statement decides. */
export const leak: DrainRule = {
  code: 'leak',
  scope: 'drain',
  judge(drain) {
    const leaks = leaking(drain)
    if (!leaks) return quiet()
    return found('within-1h', () => ({
      says: `A leak at the site was reported ${localTime(drain.view.record.zone, leaks.at)}.`,
      ends: 'It ends when a newer report says that the site is dry, or with a new tube.',
      evidence: [stated(leaks, 'leak', true)],
      threshold: criterion('leak', true, teaching, 'common practice, no source'),
    }))
  },
}
