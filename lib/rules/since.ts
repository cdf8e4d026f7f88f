import { urgencyRank } from '../domain/words.ts'
import { ask, type History, type Question } from './moment.ts'

/** A moment at which a finding was known to hold, and since when it then had, at the same rank. */
export interface Held {
  /** How much was known then, as the place of that instant among those at which something became known. */
  k: number
  at: number
  since: number
}

/**
 * Start of the unbroken run in which a finding has been at least this urgent, each moment judged by
 * what had been received by then. Walks back from now, one piece of news at a time, and stops where
 * the run begins, or where it meets an earlier moment whose answer is known.
 * @param newest how much is known at `at`
 * @returns ms since the epoch, at or before `at`
 */
export function sinceWhen(
  question: Question,
  history: History,
  rank: number,
  at: number,
  newest: number = history.record.known.length - 1,
  held: Held | null = null,
): number {
  const { known } = history.record
  let start = at
  for (let k = newest, end = at; k >= 0; k--) {
    const isHeld = held !== null && held.k === k
    const from = isHeld ? held.at : (known[k] as number)
    const run = runAtEnd(question, history, rank, k, from, k === newest ? at : end, k === newest)
    if (run === null) return start
    start = run
    if (run > from) return start
    if (isHeld) return held.since
    end = from
  }
  return start
}

/**
 * Within the time in which nothing new became known: start of the run that still holds at its end, or
 * null where none does. Time alone changes verdicts at the instants that they name themselves.
 */
function runAtEnd(
  question: Question,
  history: History,
  rank: number,
  k: number,
  from: number,
  end: number,
  last: boolean,
): number | null {
  const view = history.view(k)
  let run: number | null = null
  for (let at = from; last ? at <= end : at < end || at === from; ) {
    const verdict = ask(question, view, at)
    if (urgencyRank[verdict.urgency] >= rank) run ??= at
    else run = null
    if (verdict.next === Number.POSITIVE_INFINITY || verdict.next <= at) break
    at = verdict.next
  }
  return run
}
