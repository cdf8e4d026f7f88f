import { symptomRule } from './general-symptoms.ts'

/**
 * Was something reported that is an emergency whatever the drain does?
 * Counts while it is in the newest statement, and for 24 h after any. What is usual for the person is none.
 */
export const emergencySymptoms = symptomRule(
  'emergency-symptoms',
  'at-once',
  ['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'],
  'Telephone triage tiers, Telemed J E Health 2009 PMC2956520 T1.',
  'published',
)
