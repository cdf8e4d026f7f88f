import { counting } from '../series/statements.ts'
import { leaking } from './leak.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { localTime, stated, threshold } from './telling.ts'

/**
 * Does a capping trial fail?
 * Nothing should come from a capped drain, so symptoms stated after the capping decide: fever, chills, a leak, pain.
 */
export const capFailing: DrainRule = {
  code: 'cap-failing',
  scope: 'drain',
  judge(drain, at) {
    const { view, limits, tube } = drain
    const since = tube.cappedSince
    if (since === null) return quiet()
    const hold = limits.symptomHoldHours
    const fever = counting(
      view,
      view.record.temperatures,
      (t, s) => t >= limits.feverC && s.when > since,
      at,
      hold,
    )
    const shaking = counting(view, view.record.chills, (yes, s) => yes && s.when > since, at, hold)
    const leaks = leaking(drain)
    const leak = leaks && leaks.when > since ? leaks : null
    const newest = view.newest(view.record.pains)
    const pain =
      newest && newest.when > since && newest.value >= limits.capPain && newest.value > view.record.usualPain
        ? newest
        : null
    if (!fever.lead && !shaking.lead && !leak && !pain) return quiet()
    const next = Math.min(
      fever.lead ? fever.until : Number.POSITIVE_INFINITY,
      shaking.lead ? shaking.until : Number.POSITIVE_INFINITY,
    )
    return found(
      'within-1h',
      () => {
        const said = [
          fever.lead && `temperature ${fever.lead.value} °C`,
          shaking.lead && 'chills',
          leak && 'a leak at the site',
          pain && `pain ${pain.value} of 10`,
        ].filter((text) => text)
        return {
          says: `Since the drain was capped ${localTime(view.record.zone, since)}: ${said.join(', ')}.`,
          ends: 'It ends when the drain is uncapped, or when newer statements are free of these and 24 h have passed since fever or chills.',
          evidence: [
            ...(fever.lead ? [stated(fever.lead, 'temperature', fever.lead.value, 'Cel')] : []),
            ...(shaking.lead ? [stated(shaking.lead, 'chills', true)] : []),
            ...(leak ? [stated(leak, 'leak', true)] : []),
            ...(pain ? [stated(pain, 'pain', pain.value, '{score}')] : []),
          ],
          threshold: threshold(fever.lead ? 'feverC' : 'capPain', limits),
        }
      },
      next,
    )
  },
}
