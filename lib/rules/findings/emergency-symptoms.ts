import type { General } from '../../domain/words.ts'
import { named, unusual } from './general-symptoms.ts'
import { found, type PatientRule, quiet } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

const symptoms: readonly General[] = [
  'short-of-breath',
  'chest-pain',
  'fainted',
  'confused',
  'heavy-bleeding',
]

/**
 * Was something reported that is an emergency whatever the drain does?
 * Counts while it is in the newest statement, and for 24 h after any. What is usual for the person is none.
 */
export const emergencySymptoms: PatientRule = {
  code: 'emergency-symptoms',
  scope: 'patient',
  judge(view, at) {
    const reported = unusual(view, at, symptoms)
    const { lead } = reported
    if (!lead) return quiet()
    const wanted = symptoms.filter((g) => !view.isUsual(g))
    return found(
      'at-once',
      () => ({
        says: `${named(lead.value, wanted)} reported ${localTime(view.record.zone, lead.at)}.`,
        ends: 'It ends once the newest statement is free of it and 24 h have passed since it was last stated.',
        evidence: [stated(lead, 'general', lead.value.filter((g) => wanted.includes(g)).join(', '))],
        threshold: criterion(
          'general',
          'any of these',
          'Telephone triage tiers, Telemed J E Health 2009 PMC2956520 T1.',
          'published',
        ),
      }),
      reported.until,
    )
  },
}
