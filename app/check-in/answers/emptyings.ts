import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from './draft.ts'
import { volumeInMl } from './numbers.ts'

/**
 * Whether the number is of one emptying or of several, added up: as it was said for this report, else as this
 * phone was told before. One emptying that fills the bag is asked about again, since a bag that was full holds
 * no more.
 */
export function emptyingsOf(answers: DrainAnswers, drain: CheckInDrain): 'one' | 'several' | undefined {
  if (answers.emptyings) return answers.emptyings
  return answers.habit === 'one' && fillsBag(answers, drain) ? undefined : answers.habit
}

export function fillsBag(answers: DrainAnswers, drain: CheckInDrain): boolean {
  const ml = volumeInMl(answers.volume, answers.unit ?? 'mL')
  return ml !== null && drain.bagCapacityMl !== null && ml >= drain.bagCapacityMl
}
