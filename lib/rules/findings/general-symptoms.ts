import type { General } from '../../domain/words.ts'
import { counting } from '../series/statements.ts'
import type { View } from '../series/view.ts'

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
