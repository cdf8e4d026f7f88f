import type { Verdict } from './findings/rule.ts'
import { alone, ask, type Question } from './moment.ts'
import type { View } from './series/view.ts'

/** Most steps that are looked ahead for one rule; a rule names few instants, so this is never reached in practice. */
const STEPS = 200

const same = (a: Verdict, b: Verdict): boolean =>
  a.urgency === b.urgency &&
  a.nature === b.nature &&
  (a.urgency === 'none' || JSON.stringify(a.tell()) === JSON.stringify(b.tell()))

/**
 * Next instant at which a question is answered otherwise without new data; infinite where never.
 * Rules name instants at which their answer may change; here each is tried, so that a check is due
 * only when something does change.
 */
export function nextChange(question: Question, view: View, at: number, now: Verdict): number {
  let next = now.next
  for (let step = 0; step < STEPS && next !== Number.POSITIVE_INFINITY; step++) {
    const then = now.urgency === 'none' ? ask(question, view, next, alone) : ask(question, view, next)
    if (!same(now, then)) return next
    if (then.next <= next) return next
    next = then.next
  }
  return next > at ? next : Number.POSITIVE_INFINITY
}
