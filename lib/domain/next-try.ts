import { type Callback, standingCalls } from './callback.ts'
import type { Flag } from './flag.ts'
import type { TimeZone } from './instant.ts'
import { type FailedAttempt, nextStep } from './next-step.ts'
import { nextTryOf } from './next-step-text.ts'
import type { NextTry } from './next-try-said.ts'
import type { NoAnswer, NoAnswerRule } from './no-answer.ts'
import type { Contact } from './profile.ts'
import { urgencyRank } from './words.ts'

type Standing = Pick<Flag, 'state' | 'urgency' | 'openedAt'>

/** The flags that stand of the most pressing urgency: it is theirs that the rule and its tries are. */
function pressing(flags: readonly Standing[]): Standing[] {
  const standing = flags.filter(({ state }) => state === 'open' || state === 'owed')
  const most = Math.max(...standing.map(({ urgency }) => urgencyRank[urgency]))
  return standing.filter(({ urgency }) => urgencyRank[urgency] === most)
}

/** The rule that applies to a patient now; null where nothing stands. */
export const ruleOf = (rules: NoAnswer, flags: readonly Standing[]): NoAnswerRule | null => {
  const [flag] = pressing(flags)
  return flag ? rules[flag.urgency] : null
}

/** The attempts in vain since the last call that reached somebody, of all that count; the latest first. */
export function failedSince(
  calls: readonly Pick<Callback, 'at' | 'contact' | 'outcome' | 'undoneAt' | 'correctedBy'>[],
): FailedAttempt[] {
  const latest = standingCalls(calls).toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
  const reached = latest.findIndex(({ outcome }) => outcome === 'reached')
  return latest.slice(0, reached < 0 ? latest.length : reached)
}

/** The attempts that count for what is most pressing now: an older, calmer matter has used up no tries of it. */
export function triesFor(flags: readonly Standing[], failed: readonly FailedAttempt[]): FailedAttempt[] {
  const from = Math.min(...pressing(flags).map(({ openedAt }) => Date.parse(openedAt)))
  return failed.filter(({ at }) => Date.parse(at) >= from)
}

type Of = {
  rules: NoAnswer
  zone: TimeZone
  flags: readonly Standing[]
  failed: readonly FailedAttempt[]
  contacts: readonly Contact[]
}

/** What is to be tried next with a patient; null where nothing stands, or nothing was tried in vain. */
export function nextTry({ rules, zone, flags, failed, contacts }: Of, now: number): NextTry | null {
  const rule = ruleOf(rules, flags)
  return rule === null ? null : nextTryOf(nextStep(rule, triesFor(flags, failed), contacts), now, zone)
}
