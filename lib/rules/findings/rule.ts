import type { Criterion, Evidence } from '../../domain/assessment.ts'
import type { FindingCode, Nature, Urgency } from '../../domain/words.ts'
import type { DrainView, View } from '../series/view.ts'

/** What a finding tells its reader; worked out only for findings that stand. Times are ms since the epoch. */
export interface Telling {
  /** One sentence: what was reported, and what it was compared with. */
  says: string
  /** One sentence: what would end it. */
  ends: string
  evidence: Evidence[]
  threshold: Criterion
}

/** What a rule says at an instant, and the next instant at which it may say something else without new data. */
export interface Verdict {
  urgency: Urgency
  nature: Nature
  next: number
  tell: () => Telling
}

/** How pressing the other findings are: what an overdue log is judged beside. */
export interface Standing {
  rank: number
  next: number
}

/** A rule on one drain. `view` and `at` are all that it may look at. */
export interface DrainRule {
  code: FindingCode
  scope: 'drain'
  judge(drain: DrainView, at: number, others: () => Standing): Verdict
}

/** A rule on the whole patient. */
export interface PatientRule {
  code: FindingCode
  scope: 'patient'
  judge(view: View, at: number): Verdict
}

export type Rule = DrainRule | PatientRule

const nothing = () => {
  throw new Error('a rule that found nothing has nothing to tell')
}

const quietUntil = (next: number): Verdict => ({ urgency: 'none', nature: 'clinical', next, tell: nothing })
const QUIET = quietUntil(Number.POSITIVE_INFINITY)

/** Nothing found; `next` where time alone may change that. Most answers are the one that only new data changes. */
export const quiet = (next = Number.POSITIVE_INFINITY): Verdict =>
  next === Number.POSITIVE_INFINITY ? QUIET : quietUntil(next)

/** Something found that only new data ends, unless `next` says otherwise. */
export const found = (
  urgency: Exclude<Urgency, 'none'>,
  tell: () => Telling,
  next = Number.POSITIVE_INFINITY,
  nature: Nature = 'clinical',
): Verdict => ({ urgency, nature, next, tell })
