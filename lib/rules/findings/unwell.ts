import { symptomRule } from './general-symptoms.ts'

/** Is the person vomiting or dizzy, beyond what is usual for them? Counts as emergency symptoms do. */
export const unwell = symptomRule(
  'unwell',
  'within-24h',
  ['vomiting', 'dizzy'],
  'A sign to look, without a published tier for drains.',
  'common practice, no source',
)
