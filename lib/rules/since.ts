import { urgencyRank } from '../domain/words.ts'
import type { Verdict } from './findings/rule.ts'
import { ask, type History, type Question } from './moment.ts'
import type { View } from './series/view.ts'

/** A moment at which a finding was known to hold, with the answer then, and since when it had held at that rank. */
export interface Held {
  /** How much was known then, as the place of that instant among those at which something became known. */
  k: number
  at: number
  verdict: Verdict
  since: number
}

/**
 * Start of the unbroken run in which a finding has been at least this urgent, each moment judged by
 * what had been received by then. Walks back from now, one piece of news at a time, and stops where
 * the run begins, or where it meets an earlier moment whose answer is known.
 * @param now the answer at `at`
 * @param newest how much is known at `at`
 * @returns ms since the epoch, at or before `at`
 */
export function sinceWhen(
  question: Question,
  history: History,
  now: Verdict,
  at: number,
  newest: number = history.record.known.length - 1,
  held: Held | null = null,
): number {
  const { known } = history.record
  let start = at
  for (let k = newest, end = at; k >= 0; k--) {
    const before = held !== null && held.k === k ? held : null
    const from = before ? before.at : (known[k] as number)
    const view = history.view(k)
    const first = from === at ? now : (before?.verdict ?? ask(question, view, from))
    const run = runAtEnd(question, view, now, from, first, end, k === newest)
    if (run === null) return start
    start = run
    if (run > from) return start
    if (before) return before.since
    end = from
  }
  return start
}

/**
 * Within the time in which nothing new became known: start of the run that still holds at its end, or
 * null where none does. Time alone changes verdicts at the instants that they name themselves.
 * @param first the answer at `from`
 * @param last whether nothing became known between `end` and now, whose answer then is known
 */
function runAtEnd(
  question: Question,
  view: View,
  now: Verdict,
  from: number,
  first: Verdict,
  end: number,
  last: boolean,
): number | null {
  let run: number | null = null
  let verdict = first
  for (let at = from; ; verdict = last && at === end ? now : ask(question, view, at)) {
    if (urgencyRank[verdict.urgency] >= urgencyRank[now.urgency]) run ??= at
    else run = null
    const { next } = verdict
    if (next <= at || (last ? next > end : next >= end)) return run
    at = next
  }
}
