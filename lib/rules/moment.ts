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

const NOTHING: Standing = { rank: 0, next: Number.POSITIVE_INFINITY }
/** As if nothing else stood: enough to know whether there is anything at all. */
export const alone = (): Standing => NOTHING

/** What stands beside an overdue log of a drain. */
export type Others = (view: View, at: number, but: DrainView) => Standing

/** Answers a question on what a view knows, at an instant. */
export function ask({ rule, drain }: Question, view: View, at: number, others: Others = standing): Verdict {
  if (rule.scope === 'patient') return rule.judge(view, at)
  const of = view.drains[drain]
  if (!of) return quiet()
  // A drain that is still to be placed: there will be something to ask then.
  if (!of.tube.active) return of.facts.placedAt > view.cut ? quiet(of.facts.placedAt) : quiet()
  return rule.judge(of, at, () => others(view, at, of))
}

/** The most pressing of some verdicts, and when one of them may change by itself. */
export const weighed = (verdicts: readonly Verdict[]): Standing => ({
  rank: verdicts.reduce((most, { urgency }) => Math.max(most, urgencyRank[urgency]), 0),
  next: verdicts.reduce((soonest, { next }) => Math.min(soonest, next), Number.POSITIVE_INFINITY),
})

/** Overdue logs of the other drains as they stand alone: none may wait for another. */
export const otherLogs = (view: View, at: number, but: DrainView): Verdict[] =>
  view.active.filter((drain) => drain !== but).map((drain) => logMissed.judge(drain, at, alone))

/** The most pressing of the findings beside an overdue log of one drain, each asked for anew. */
function standing(view: View, at: number, but: DrainView): Standing {
  const verdicts = otherLogs(view, at, but)
  for (const rule of rules) {
    if (rule.scope === 'patient') verdicts.push(rule.judge(view, at))
    else if (rule !== logMissed) for (const drain of view.active) verdicts.push(rule.judge(drain, at, alone))
  }
  return weighed(verdicts)
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
