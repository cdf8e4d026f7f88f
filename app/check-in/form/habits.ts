import type { DrainAnswers } from '../answers/draft.ts'

type Habit = NonNullable<DrainAnswers['habit']>

/**
 * Whether the numbers of a drain are of one emptying or of all since the last report: asked once and
 * remembered on this phone, by the drain's id alone. A phone that refuses storage is asked each time.
 */
const SHELF = 'check-in-habits'

function habits(): Record<string, Habit> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(SHELF) ?? '{}')
    return kept && typeof kept === 'object' ? (kept as Record<string, Habit>) : {}
  } catch {
    return {}
  }
}

export function habitOf(drain: string): Habit | undefined {
  const habit = habits()[drain]
  return habit === 'one' || habit === 'several' ? habit : undefined
}

export function rememberHabit(drain: string, habit: Habit): void {
  try {
    localStorage.setItem(SHELF, JSON.stringify({ ...habits(), [drain]: habit }))
  } catch {
    // Asked again at the next report.
  }
}
