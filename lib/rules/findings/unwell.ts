import type { General } from '../../domain/words.ts'
import { named, unusual } from './general-symptoms.ts'
import { found, type PatientRule, quiet } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

const symptoms: readonly General[] = ['vomiting', 'dizzy']

/** Is the person vomiting or dizzy, beyond what is usual for them? Counts as emergency symptoms do. */
export const unwell: PatientRule = {
  code: 'unwell',
  scope: 'patient',
  judge(view, at) {
    const reported = unusual(view, at, symptoms)
    const { lead } = reported
    if (!lead) return quiet()
    const wanted = symptoms.filter((g) => !view.isUsual(g))
    return found(
      'within-24h',
      () => ({
        says: `${named(lead.value, wanted)} reported ${localTime(view.record.zone, lead.at)}.`,
        ends: 'It ends once the newest statement is free of it and 24 h have passed since it was last stated.',
        evidence: [stated(lead, 'general', lead.value.filter((g) => wanted.includes(g)).join(', '))],
        threshold: criterion(
          'general',
          'any of these',
          'A sign to look, without a published tier for drains.',
          'common practice, no source',
        ),
      }),
      reported.until,
    )
  },
}
