import type { Criterion, Evidence, Finding } from '../domain/assessment.ts'
import type { PatientRecord } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { type FindingCode, type Nature, urgencyHours, urgencyRank } from '../domain/words.ts'
import { logMissed } from './findings/log-missed.ts'
import type { Telling, Verdict } from './findings/rule.ts'
import { ask, History, type Others, otherLogs, type Question, questionsOf, weighed } from './moment.ts'
import { nextChange } from './next-check.ts'
import { prepare } from './series/prepare.ts'
import type { View } from './series/view.ts'
import { type Held, sinceWhen } from './since.ts'
import type { Watch } from './watch.ts'

const HOUR_MS = 3_600_000
const iso = (ms: number) => new Date(ms).toISOString()

/** What is found at one moment of a walk, and the next instant at which time alone can change it, in ms; infinite where never. */
export interface Moment {
  findings: Finding[]
  nextMs: number
}

/**
 * A record that is walked through from moment to moment: at each what `assess` finds, without reading the record
 * anew. Reports and events count from their instants, so the record may hold all of them up to `until`; whatever else
 * it says (drains, orders, bookings, corrections of events) must hold for the whole walk.
 */
export class Walk {
  private readonly history: History
  private readonly questions: Question[]
  private readonly held = new Map<Question, Held>()
  private readonly answers: (Answer | null)[]
  private newest = -1
  private atMs = Number.NEGATIVE_INFINITY

  /**
   * @param until the last instant that will be asked about, in ms since the epoch
   * @param watch is told of the thresholds that are read
   */
  constructor(
    private readonly record: PatientRecord,
    private readonly rules: RuleSet,
    private readonly until: number,
    private readonly watch: Watch | null = null,
  ) {
    this.history = new History(prepare(record, rules, until, watch))
    this.questions = questionsOf(this.history.record)
    this.answers = this.questions.map(() => null)
  }

  /**
   * What is found at an instant. Instants are asked about in the order of time.
   * @param at ms since the epoch
   */
  at(at: number): Moment {
    if (at < this.atMs || at > this.until)
      throw new RangeError('walk: a moment before the one that was asked about last, or after the end')
    this.atMs = at
    const { known } = this.history.record
    const before = this.newest
    while (this.newest + 1 < known.length && (known[this.newest + 1] as number) <= at) this.newest++
    // Before enrolment and placement there is nothing to go on from.
    if (this.newest < 0 && at < this.until) return new Walk(this.record, this.rules, at, this.watch).at(at)
    const isNews = this.newest !== before
    // Who looks back does so to the view before; what is older is hardly asked for again.
    for (let k = Math.max(0, before - 1); k < this.newest - 1; k++) this.history.forget(k)
    const view = this.history.view(this.newest)
    const findings: StandingFinding[] = []
    let nextMs = Number.POSITIVE_INFINITY
    for (let i = 0; i < this.questions.length; i++) {
      const question = this.questions[i] as Question
      let answer = this.answers[i] as Answer | null
      // Until the instant that it names, a verdict on what is known does not change.
      if (isNews || answer === null || answer.verdict.next <= at) {
        answer = this.answer(question, view, at)
        this.answers[i] = answer
      }
      const { verdict, finding } = answer
      if (verdict.next < nextMs) {
        answer.changes ??= nextChange(question, view, at, verdict)
        nextMs = Math.min(nextMs, answer.changes)
      }
      if (finding) findings.push(finding)
    }
    return { findings: findings.sort(bySoonest), nextMs }
  }

  private answer(question: Question, view: View, at: number): Answer {
    const verdict = ask(question, view, at, this.others)
    if (verdict.urgency === 'none') {
      this.held.delete(question)
      return { verdict, finding: null, changes: null }
    }
    const drain = this.history.record.drains[question.drain]?.id ?? null
    const since = this.since(question, verdict, at)
    return { verdict, finding: new StandingFinding(question.rule.code, drain, verdict, since), changes: null }
  }

  /** What stands beside an overdue log has been answered already: logs are asked about last. */
  private readonly others: Others = (view, at, but) => {
    const verdicts = otherLogs(view, at, but)
    for (let i = 0; i < this.questions.length; i++)
      if (this.questions[i]?.rule !== logMissed) verdicts.push((this.answers[i] as Answer).verdict)
    return weighed(verdicts)
  }

  /** Looks back no further than to the moment before, where the finding was as urgent then. */
  private since(question: Question, verdict: Verdict, at: number): number {
    const before = this.held.get(question)
    const asUrgent = before?.verdict.urgency === verdict.urgency ? before : null
    const since = sinceWhen(question, this.history, verdict, at, this.newest, asUrgent)
    this.held.set(question, { k: this.newest, at, verdict, since })
    return since
  }
}

/** An answer with the finding that it makes, and, once asked for, when time alone changes it. */
type Answer = { verdict: Verdict; finding: StandingFinding | null; changes: number | null }

const bySoonest = (a: StandingFinding, b: StandingFinding) =>
  urgencyRank[b.urgency] - urgencyRank[a.urgency] || a.dueMs - b.dueMs

/** A finding whose words and times are written when they are read: of most moments of a walk nobody reads them. */
class StandingFinding implements Finding {
  readonly nature: Nature
  readonly urgency: Finding['urgency']
  readonly dueMs: number
  private told: Telling | null = null

  constructor(
    readonly code: FindingCode,
    readonly drain: string | null,
    private readonly verdict: Verdict,
    private readonly sinceMs: number,
  ) {
    this.nature = verdict.nature
    this.urgency = verdict.urgency as Finding['urgency']
    this.dueMs = sinceMs + (urgencyHours[this.urgency] as number) * HOUR_MS
  }

  get since(): string {
    return iso(this.sinceMs)
  }
  get actBy(): string {
    return iso(this.dueMs)
  }

  private get telling(): Telling {
    this.told ??= this.verdict.tell()
    return this.told
  }
  get says(): string {
    return this.telling.says
  }
  get ends(): string {
    return this.telling.ends
  }
  get evidence(): Evidence[] {
    return this.telling.evidence
  }
  get threshold(): Criterion {
    return this.telling.threshold
  }
}
