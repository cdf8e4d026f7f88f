import { urgencyRank } from '../domain/words.ts'
import { rules } from './findings/all.ts'
import { logMissed } from './findings/log-missed.ts'
import { quiet, type Rule, type Standing, type Verdict } from './findings/rule.ts'
import type { Prepared } from './series/prepare.ts'
import { type DrainView, View } from './series/view.ts'

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

const alone: Standing = { rank: 0, next: Number.POSITIVE_INFINITY }

/**
 * Answers a question on what a view knows, at an instant.
 * @param lonely judge it as if nothing else stood: enough to know whether there is anything at all
 */
export function ask({ rule, drain }: Question, view: View, at: number, lonely = false): Verdict {
  if (rule.scope === 'patient') return rule.judge(view, at)
  const of = view.drains[drain]
  if (!of) return quiet()
  // A drain that is still to be placed: there will be something to ask then.
  if (!of.tube.active) return of.facts.placedAt > view.cut ? quiet(of.facts.placedAt) : quiet()
  return rule.judge(of, at, () => (lonely ? alone : standing(view, at, of)))
}

const standings = new WeakMap<View, Map<string, Standing>>()

/**
 * The most pressing of the findings beside an overdue log of one drain, and when one of them may
 * change by itself. Overdue logs of other drains count as they stand alone: none may wait for another.
 */
function standing(view: View, at: number, but: DrainView): Standing {
  let known = standings.get(view)
  if (!known) {
    known = new Map()
    standings.set(view, known)
  }
  const key = `${but.id} ${at}`
  let result = known.get(key)
  if (!result) {
    let rank = 0
    let next = Number.POSITIVE_INFINITY
    const weigh = (verdict: Verdict) => {
      rank = Math.max(rank, urgencyRank[verdict.urgency])
      next = Math.min(next, verdict.next)
    }
    for (const rule of rules) {
      if (rule.scope === 'patient') weigh(rule.judge(view, at))
      else
        for (const drain of view.active)
          if (rule !== logMissed || drain !== but) weigh(rule.judge(drain, at, () => alone))
    }
    result = { rank, next }
    known.set(key, result)
  }
  return result
}

/** Views of a record by how much of it was known: as many as there are instants at which something became known. */
export class History {
  private readonly views = new Map<number, View>()

  constructor(readonly record: Prepared) {}

  /** What was known at the k-th of those instants. */
  view(k: number): View {
    let view = this.views.get(k)
    if (!view) {
      const last = this.record.known.length - 1
      view = new View(this.record, this.record.known[k] as number, k === last ? null : this.view(last))
      this.views.set(k, view)
    }
    return view
  }

  /** Lets go of the view at the k-th instant; it is made anew if it is asked for again. */
  forget(k: number): void {
    this.views.delete(k)
  }
}
