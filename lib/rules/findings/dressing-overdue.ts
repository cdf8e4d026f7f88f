import { ofSeries } from '../series/tube.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, noted, stated, threshold } from './telling.ts'

const HOUR_MS = 3_600_000

/**
 * Does the dressing need changing?
 * Damp, soiled, loosened or off and left so: clinical. Else later than the order: a reminder.
 * Source: CDC MMWR 2002 App. B, replace when damp, loosened or soiled.
 */
export const dressingOverdue: DrainRule = {
  code: 'dressing-overdue',
  scope: 'drain',
  judge(drain, at) {
    const { view, facts, limits, tube } = drain
    const { zone, enrolledAt } = view.record
    const state = view.newest(facts.found)
    const changed = view.newest(facts.changes)
    const bad =
      state &&
      state.value.found !== 'clean' &&
      !state.value.changed &&
      ofSeries(tube, state.when) &&
      !(changed && changed.when >= state.when)
    if (bad)
      return found('within-24h', () => ({
        says: `The dressing was found ${state.value.found} ${localTime(zone, state.at)} and not changed.`,
        ends: 'It ends when a change of dressing is recorded, or with a new tube.',
        evidence: [stated(state, 'dressing', state.value.found)],
        threshold: criterion(
          'found',
          state.value.found,
          'CDC MMWR 2002 App. B: replace when damp, loosened or soiled.',
          'published',
        ),
      }))
    const last = Math.max(changed?.when ?? Number.NEGATIVE_INFINITY, tube.newest, enrolledAt)
    const every = facts.plan.dressingEveryHours
    const late = last + (every + limits.dressingGraceHours) * HOUR_MS
    const later = Math.max(late, last + 2 * every * HOUR_MS)
    if (at < late) return quiet(late)
    return found(
      at >= later ? 'within-24h' : 'within-3d',
      () => ({
        says: `No change of dressing recorded since ${localTime(zone, last)}; one is ordered every ${every} h.`,
        ends: 'It ends when a change of dressing is recorded.',
        evidence: [
          changed?.when === last ? stated(changed, 'dressing', 'changed') : noted(last, 'start', null),
        ],
        threshold: threshold('dressingGraceHours', limits),
      }),
      at >= later ? undefined : later,
      'upkeep',
    )
  },
}
