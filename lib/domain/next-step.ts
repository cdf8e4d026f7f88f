import type { AttemptOutcome } from './callback.ts'
import type { Instant } from './instant.ts'
import type { NoAnswerRule, NoAnswerStep } from './no-answer.ts'
import type { Contact } from './profile.ts'

/** One attempt that reached nobody. `contact`: whom of the contacts; null: the patient. */
export type FailedAttempt = { at: Instant; contact: string | null; outcome: AttemptOutcome }

/** What the clinic's rule says is next; null where nothing was tried yet. `since`: from when it is due. */
export type NextStep =
  | { step: 'try-again'; at: Instant }
  | { step: 'call-contact'; contact: Contact; at: Instant }
  /** What needs people beyond the patient and the contacts, in order: nothing here knows whether it was done. */
  | { step: 'ask-others'; ask: ('on-call' | 'welfare-check' | 'contacts')[]; at: Instant }
  | { step: 'used-up'; at: Instant }

const DAY_MS = 86_400_000
const MINUTE_MS = 60_000

/**
 * What comes next after attempts without an answer, by the clinic's rule. Pure; it closes nothing and moves no deadline.
 * A wrong number is not tried again: the rule goes on as if the tries of that round were used up.
 * @param attempts since somebody was last spoken to, in any order
 * @param contacts in their order; the patient and whoever did not agree to be called are passed over
 */
export function nextStep(
  rule: NoAnswerRule,
  attempts: readonly FailedAttempt[],
  contacts: readonly Contact[],
): NextStep | null {
  const all = attempts.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
  const last = all.at(-1)
  if (!last) return null
  const own = all.filter(({ contact }) => contact === null)
  const isWrong = own.some(({ outcome }) => outcome === 'wrong-number')
  if (own.length < rule.tries && !isWrong) return { step: 'try-again', at: spaced(own, rule) ?? last.at }

  let used = rule.tries
  for (const [i, step] of rule.next.entries()) {
    if (step === 'next-day') {
      if (isWrong) continue
      const begun = own[used - rule.tries]
      if (own.length < used + rule.tries && begun)
        return {
          step: 'try-again',
          at: own.length === used ? nextDay(begun.at) : (spaced(own, rule) ?? last.at),
        }
      used += rule.tries
    } else if (step === 'contacts') {
      const contact = untried(contacts, all)
      if (contact) return { step: 'call-contact', contact, at: last.at }
    } else return { step: 'ask-others', ask: others(rule.next.slice(i), contacts, all), at: last.at }
  }
  return { step: 'used-up', at: last.at }
}

/** The time of the next try of a round, so far after the last one. */
function spaced(own: readonly FailedAttempt[], { everyMinutes }: NoAnswerRule): Instant | null {
  const last = own.at(-1)
  return last ? new Date(Date.parse(last.at) + everyMinutes * MINUTE_MS).toISOString() : null
}

const nextDay = (at: Instant): Instant => new Date(Date.parse(at) + DAY_MS).toISOString()

const untried = (contacts: readonly Contact[], all: readonly FailedAttempt[]): Contact | undefined =>
  contacts.find(
    ({ name, relation, mayCall, phone }) =>
      relation !== 'self' && mayCall && phone !== null && !all.some(({ contact }) => contact === name),
  )

const others = (
  steps: readonly NoAnswerStep[],
  contacts: readonly Contact[],
  all: readonly FailedAttempt[],
) =>
  steps.filter(
    (step) =>
      step === 'on-call' || step === 'welfare-check' || (step === 'contacts' && untried(contacts, all)),
  ) as ('on-call' | 'welfare-check' | 'contacts')[]
