import type { Appearance } from '../../domain/words.ts'
import type { Stated } from '../series/prepare.ts'
import { counting, generals } from '../series/statements.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { localTime, stated, threshold } from './telling.ts'

const HOUR_MS = 3_600_000

/** Whether such a look is expected at its time: soon after a tube was put in, some blood is. Clots never are. */
function expected(drain: DrainView, s: Stated<Appearance>): boolean {
  const put = drain.tube.news.findLast((at) => at <= s.when)
  if (put === undefined) return false
  const { kind } = drain.facts
  const since = s.when - put
  if (s.value === 'pink' && since < drain.limits.pinkExpectedHours * HOUR_MS) return true
  return (
    (kind === 'bulb' || kind === 'pleural') &&
    s.value !== 'clots' &&
    since < drain.limits.redExpectedHours * HOUR_MS
  )
}

const RED: readonly Appearance[] = ['red', 'clots']
const PINK: readonly Appearance[] = ['pink']

/** Statements of such a look that count, where it is neither expected nor usual for this drain. */
const looks = (drain: DrainView, at: number, wanted: readonly Appearance[]) =>
  counting(
    drain.view,
    drain.facts.appearances,
    (value, s) => wanted.includes(value) && value !== drain.facts.usualAppearance && !expected(drain, s),
    at,
    drain.limits.symptomHoldHours,
  )

/**
 * Is there blood in the drain that should not be there?
 * Red or clots; with fainting or dizziness it cannot wait. Pink once the first days after a tube are over.
 */
export const bleeding: DrainRule = {
  code: 'bleeding',
  scope: 'drain',
  judge(drain, at) {
    const { view, limits } = drain
    const ends =
      'It ends once the newest report gives another look and 24 h have passed since blood was last reported.'
    const zone = view.record.zone
    const red = looks(drain, at, RED)
    if (red.lead) {
      const { lead } = red
      const faint = generals(view, at, ['fainted', 'dizzy'])
      const beside = faint.lead
      return found(
        beside ? 'at-once' : 'within-1h',
        () => ({
          says: `${lead.value === 'clots' ? 'Clots' : 'Red fluid'} in the drain, reported ${localTime(zone, lead.at)}${beside ? `, with ${beside.value.includes('fainted') ? 'fainting' : 'dizziness'}` : ''}.`,
          ends,
          evidence: [
            stated(lead, 'appearance', lead.value),
            ...(beside ? [stated(beside, 'general', beside.value.join(', '))] : []),
          ],
          threshold: threshold('redExpectedHours', limits),
        }),
        beside ? Math.min(red.until, faint.until) : red.until,
      )
    }
    const pink = looks(drain, at, PINK)
    const { lead } = pink
    if (!lead) return quiet()
    return found(
      'within-24h',
      () => ({
        says: `Pink fluid in the drain, reported ${localTime(zone, lead.at)}, later than ${limits.pinkExpectedHours} h after the tube was put in.`,
        ends,
        evidence: [stated(lead, 'appearance', lead.value)],
        threshold: threshold('pinkExpectedHours', limits),
      }),
      pink.until,
    )
  },
}
