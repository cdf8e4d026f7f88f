import type { Confidence, General, Urgency } from '../../domain/words.ts'
import { counting } from '../series/statements.ts'
import type { View } from '../series/view.ts'
import { found, type PatientRule, quiet } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

/** Statements that count now and name one of the symptoms beyond what is usual for this person. */
export const unusual = (view: View, at: number, symptoms: readonly General[]) =>
  counting(
    view,
    view.record.generals,
    (list) => list.some((g) => symptoms.includes(g) && !view.isUsual(g)),
    at,
    view.record.limits.symptomHoldHours,
  )

const words: Readonly<Record<General, string>> = {
  'short-of-breath': 'short of breath',
  'chest-pain': 'chest pain',
  fainted: 'fainted',
  confused: 'confused',
  'heavy-bleeding': 'heavy bleeding',
  vomiting: 'vomiting',
  dizzy: 'dizzy',
}

/** `Short of breath, chest pain`: those of the list that are wanted, as a sentence begins. */
export function named(list: readonly General[], wanted: readonly General[]): string {
  const text = list
    .filter((g) => wanted.includes(g))
    .map((g) => words[g])
    .join(', ')
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** A rule that counts what was reported of some symptoms, beyond what is usual for the person. */
export const symptomRule = (
  code: PatientRule['code'],
  urgency: Exclude<Urgency, 'none'>,
  symptoms: readonly General[],
  source: string,
  confidence: Confidence,
): PatientRule => ({
  code,
  scope: 'patient',
  judge(view, at) {
    const reported = unusual(view, at, symptoms)
    const { lead } = reported
    if (!lead) return quiet()
    const wanted = symptoms.filter((g) => !view.isUsual(g))
    return found(
      urgency,
      () => ({
        says: `${named(lead.value, wanted)} reported ${localTime(view.record.zone, lead.at)}.`,
        ends: 'It ends once the newest statement is free of it and 24 h have passed since it was last stated.',
        evidence: [stated(lead, 'general', lead.value.filter((g) => wanted.includes(g)).join(', '))],
        threshold: criterion('general', 'any of these', source, confidence),
      }),
      reported.until,
    )
  },
})
