import { displaced } from './drain-out.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, stated, teaching } from './telling.ts'

/**
 * Has the drain slipped?
 * True once 'moved' was reported of this tube, until its position was checked, it was removed, replaced,
 * exchanged or placed anew, or the flag was closed.
 */
export const drainMoved: DrainRule = {
  code: 'drain-moved',
  scope: 'drain',
  judge(drain) {
    const checkedAt =
      drain.view.events.findLast((e) => e.type === 'position-checked' && e.drain === drain.id)?.at ?? null
    const moved = displaced(drain, 'moved', checkedAt)
    if (!moved) return quiet()
    return found('within-1h', () => ({
      says: `The drain was reported moved ${localTime(drain.view.record.zone, moved.at)}.`,
      ends: 'It ends when its position is recorded as checked, with a new tube or removal, or when the flag is closed.',
      evidence: [stated(moved, 'position', moved.value)],
      threshold: criterion('position', 'moved', teaching, 'common practice, no source'),
    }))
  },
}
