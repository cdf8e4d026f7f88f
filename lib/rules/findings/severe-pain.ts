import { lowestLimit } from '../series/statements.ts'
import { found, type PatientRule, quiet } from './rule.ts'
import { localTime, stated, threshold } from './telling.ts'

/**
 * Is the pain severe, or clearly worse than at the statement before?
 * Pain that is usual for the person is no finding. Source of 7 of 10: Palos, J Pain 2006.
 */
export const severePain: PatientRule = {
  code: 'severe-pain',
  scope: 'patient',
  judge(view) {
    const pains = view.seen(view.record.pains)
    const now = pains.at(-1)
    if (!now || now.value <= view.record.usualPain) return quiet()
    const { limits } = view.record
    const severePain = lowestLimit(view, 'severePain')
    const before = pains.at(-2)
    const zone = view.record.zone
    const ends = 'It ends when a newer statement gives less pain.'
    if (now.value >= severePain)
      return found('within-1h', () => ({
        says: `Pain ${now.value} of 10 reported ${localTime(zone, now.at)} (limit ${severePain}).`,
        ends,
        evidence: [stated(now, 'pain', now.value, '{score}')],
        threshold: threshold('severePain', { severePain }),
      }))
    if (!before || now.value < limits.risingPain || now.value - before.value < limits.risingPainStep)
      return quiet()
    return found('within-24h', () => ({
      says: `Pain rose from ${before.value} to ${now.value} of 10, reported ${localTime(zone, now.at)} (limit ${limits.risingPain}, and ${limits.risingPainStep} more than before).`,
      ends,
      evidence: [stated(before, 'pain', before.value, '{score}'), stated(now, 'pain', now.value, '{score}')],
      threshold: threshold('risingPainStep', limits),
    }))
  },
}
