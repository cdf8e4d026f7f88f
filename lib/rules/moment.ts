import { urgencyRank } from '../domain/words.ts'
import { rules } from './findings/all.ts'
import { quiet, type Rule, type Standing, type Verdict } from './findings/rule.ts'
import { View } from './series/view.ts'
import type { Prepared } from './series/prepare.ts'

/** A rule applied to one drain, by its place in the record, or to the whole patient (-1). */
export interface Question {
  rule: Rule
  drain: number
}

/** Every question that a record gives rise to. */
export const questionsOf = (record: Prepared): Question[] =>
  rules.flatMap((rule): Question[] =>
    rule.scope === 'patient' ? [{ rule, drain: -1 }] : record.drains.map((_, drain) => ({ rule, drain })),
  )

/** Answers a question on what a view knows, at an instant. */
export function ask({ rule, drain }: Question, view: View, at: number): Verdict {
  if (rule.scope === 'patient') return rule.judge(view, at)
  const of = view.drains[drain]
  if (!of?.tube.active) return quiet()
  return rule.judge(of, at, () => standing(view, at, { rule, drain }))
}

/** The most pressing of the other findings, and when one of them may change by itself. */
function standing(view: View, at: number, but: Question): Standing {
  let rank = 0
  let next = Number.POSITIVE_INFINITY
  for (const question of questionsOf(view.record)) {
    if (question.rule === but.rule && question.drain === but.drain) continue
    // Among themselves, overdue logs count as they stand alone: none may wait for the other.
    const verdict = question.rule === but.rule ? askAlone(question, view, at) : ask(question, view, at)
    rank = Math.max(rank, urgencyRank[verdict.urgency])
    next = Math.min(next, verdict.next)
  }
  return { rank, next }
}

function askAlone({ rule, drain }: Question, view: View, at: number): Verdict {
  const of = view.drains[drain]
  if (rule.scope === 'patient' || !of?.tube.active) return quiet()
  return rule.judge(of, at, () => ({ rank: 0, next: Number.POSITIVE_INFINITY }))
}

/** Views of a record by how much of it was known: as many as there are instants at which something became known. */
export class History {
  private readonly views = new Map<number, View>()

  constructor(readonly record: Prepared) {}

  /** What was known at the k-th of those instants. */
  view(k: number): View {
    let view = this.views.get(k)
    if (!view) {
      view = new View(this.record, this.record.known[k] as number)
      this.views.set(k, view)
    }
    return view
  }
}
