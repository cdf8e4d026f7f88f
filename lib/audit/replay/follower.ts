import { spokenOf, withOtherTime, withoutCall } from '../../assessment/call-corrected.ts'
import { applyCall } from '../../assessment/flag-call.ts'
import { moveFlags, stands, step } from '../../assessment/flag-life.ts'
import { givenBack } from '../../assessment/give-back.ts'
import { keptInHospital, resumed } from '../../assessment/in-hospital.ts'
import type { Finding } from '../../domain/assessment.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { type Moment, Walk } from '../../rules/walk.ts'
import type { Watch } from '../../rules/watch.ts'
import type { KeptFlag } from '../../store/flags.ts'
import type { HistoryCall } from '../../store/replay-history.ts'
import type { Happening } from './happenings.ts'
import { Kept } from './kept.ts'
import type { Known } from './known.ts'

const isoOf = (ms: number) => new Date(ms).toISOString()
/** The instant that is looked at, as text: it is written many times over. */
let lastIso = { ms: 0, text: isoOf(0) }
function iso(ms: number): string {
  if (lastIso.ms !== ms) lastIso = { ms, text: isoOf(ms) }
  return lastIso.text
}
const NEVER = Number.POSITIVE_INFINITY

/** What a call changed, for taking it back within its minute. */
type Before = { flag: KeptFlag; after: KeptFlag }

/** Which rule set holds at an instant. */
export type RulesAt = (at: number) => RuleSet

/**
 * One patient under one course of rule sets: flags open, grow, end and come back as they do in the live assessment,
 * by the same functions, at the moments at which it would have looked.
 */
export class Follower {
  private walk: { on: Walk; until: number; rules: RuleSet } | null = null
  private before = new Map<string, Before[]>()
  private inHospital = false
  private followed = true
  private nextMs = NEVER
  private lookedMs = Number.NEGATIVE_INFINITY
  private count = 0
  private watch: Watch | null = null
  /** What is done before a look at which another rule set may find something else. */
  private part: ((at: number) => void) | null = null

  constructor(
    private readonly known: Known,
    private readonly rulesAt: RulesAt,
    /** The code and drain of each flag that happened: by them a call says what it closed. */
    private readonly named: ReadonlyMap<string, string>,
    readonly kept: Kept = new Kept(),
  ) {}

  /** The same patient from here on under other rule sets. */
  fork(rulesAt: RulesAt): Follower {
    const other = new Follower(this.known, rulesAt, this.named, this.kept.fork())
    Object.assign(other, {
      ...{ before: new Map(this.before), inHospital: this.inHospital, followed: this.followed },
      ...{ nextMs: this.nextMs, lookedMs: this.lookedMs, count: this.count },
    })
    return other
  }

  /**
   * From an instant on, asks itself before each look whether the rules have read what another rule set has otherwise, and says so
   * once: until then the patient's course is the same under both, and it still stands as it did before that look.
   */
  watchFrom(at: number, watch: Watch, part: (at: number) => void): void {
    watch.isRead = false
    this.watch = watch
    this.part = part
    this.walk = null
    if (this.followed) this.findings(at)
  }

  /** When time alone makes the rules look again; infinite where never. */
  get nextLook(): number {
    if (!this.followed) return NEVER
    let next = this.nextMs
    for (const at of this.kept.promises) if (at > this.lookedMs && at < next) next = at
    return next
  }

  /** Takes in what happened at one instant, and looks. */
  happen(at: number, all: readonly Happening[]): void {
    const isSeen = all.some(({ kind }) => kind !== 'left')
    // What the rules find is a matter of the record alone, not of what has become of its flags.
    const findings = isSeen ? this.find(at) : []
    for (const one of all) this.prepare(at, one)
    if (!isSeen) return
    for (const one of all) if (one.kind === 'withdrawn') this.giveBack(at, one, findings)
    this.move(at, findings)
    for (const one of all) this.conclude(at, one)
  }

  /** Looks because time has passed. */
  look(at: number): void {
    this.move(at, this.find(at))
  }

  /** Looks because another rule set has come into force: only at those who are still followed. */
  lookIfFollowed(at: number): void {
    if (this.followed) this.look(at)
  }

  private prepare(at: number, one: Happening): void {
    if (one.kind === 'call') this.call(at, one.call)
    else if (one.kind === 'undone') this.undo(at, one.call)
    else if (one.kind === 'corrected') this.correct(at, one.call, one.original)
    else if (one.kind === 'admitted') this.inHospital = true
    else if (one.kind === 'home') this.inHospital = false
    else if (one.kind === 'left') this.followed = false
    else if (one.kind === 'back') this.followed = true
  }

  private conclude(at: number, one: Happening): void {
    if (one.kind === 'home') this.kept.save(resumed(this.kept.living, iso(at)), [], iso(at))
    if (one.kind !== 'call') return
    const before = this.before.get(one.call.id) ?? []
    const moved = before.flatMap(({ flag }) => {
      const after = this.kept.of(flag.id)?.flag
      return after && !isAs(after, flag) ? [{ flag, after }] : []
    })
    // Only the latest call can be taken back.
    this.before = new Map([[one.call.id, moved]])
  }

  /** What the rules find at an instant, and when next. Parts, where that may be otherwise under the other rule set. */
  private findings(at: number): Moment {
    const rules = this.rulesAt(at)
    if (!this.walk || at > this.walk.until || this.walk.rules !== rules) {
      const until = this.known.endOf(at)
      this.walk = { on: new Walk(this.known.at(at), rules, until, this.watch), until, rules }
    }
    const found = this.walk.on.at(at)
    if (this.watch?.isRead) {
      this.part?.(at)
      this.part = null
    }
    return found
  }

  private find(at: number): Finding[] {
    const { findings, nextMs } = this.findings(at)
    this.nextMs = nextMs > at ? nextMs : NEVER
    this.lookedMs = at
    return findings
  }

  private move(at: number, findings: readonly Finding[]): void {
    const before = this.kept.living
    if (before.length === 0 && findings.length === 0) return
    const now = iso(at)
    const moves = moveFlags(this.known.history.patientId, before, findings, now, () => `${++this.count}`)
    const { flags, steps } = this.inHospital ? keptInHospital(before, moves) : moves
    this.kept.save(flags, steps, now)
  }

  /** A call that reached somebody closes what it closed then, by code and drain; what else stands was spoken of. */
  private call(at: number, call: HistoryCall): void {
    const living = this.kept.living
    this.before.set(
      call.id,
      living.map((flag) => ({ flag, after: flag })),
    )
    if (call.outcome !== 'reached') return
    const named = new Set(call.closes.flatMap((id) => this.named.get(id) ?? []))
    const closes = living.filter((flag) => stands(flag) && named.has(keyOf(flag))).map(({ id }) => id)
    const { lookAgainAt, recordedBy: by } = call
    const { flags, steps } = applyCall(living, { at: call.at, by, closes, lookAgainAt, why: '' })
    this.kept.save(flags, steps, iso(at))
  }

  /** Taken back within its minute: what it moved stands as before, unless something has moved it since. */
  private undo(at: number, call: HistoryCall): void {
    const back = (this.before.get(call.id) ?? []).filter(({ flag, after }) => {
      const now = this.kept.of(flag.id)?.flag
      return now && isAs(now, after)
    })
    const flags = back.map(({ flag }) => flag)
    const moved = back.filter(
      ({ flag, after }) => flag.state !== after.state || flag.urgency !== after.urgency,
    )
    const steps = moved.map(({ flag }) => step(flag, iso(at), 'undone', call.recordedBy, ''))
    this.kept.save(flags, steps, iso(at))
    this.before.delete(call.id)
  }

  private correct(at: number, call: HistoryCall, original: HistoryCall): void {
    if (original.outcome !== 'reached') return
    const touched = spokenOf(this.kept.flags, original.at)
    if (call.outcome === 'reached') {
      if (call.lookAgainAt !== original.lookAgainAt)
        this.kept.save(withOtherTime(touched, original, call.lookAgainAt), [], iso(at))
      return
    }
    const steps = touched.flatMap(({ id }) => this.kept.of(id)?.steps ?? [])
    const back = withoutCall(touched, this.kept.living, steps, original.at)
    const returned = back.filter((flag) =>
      touched.some((was) => was.id === flag.id && (!stands(was) || was.urgency !== flag.urgency)),
    )
    this.kept.save(
      back,
      returned.map((flag) => step(flag, iso(at), 'returned', call.recordedBy, '')),
      iso(at),
    )
  }

  /** Something that staff had recorded was withdrawn: what its recording moved goes back, as the rules now say. */
  private giveBack(at: number, one: Happening & { kind: 'withdrawn' }, findings: readonly Finding[]): void {
    const { recordedAt } = one
    const moved = this.kept.all.filter(
      ({ flag, steps, changedAt }) =>
        steps.some((step) => step.at === recordedAt) ||
        (flag.state === 'closed' &&
          !flag.holdsStill &&
          changedAt === recordedAt &&
          flag.closedAt !== null &&
          flag.closedAt < recordedAt),
    )
    const kind = one.isCorrection ? 'corrected' : 'undone'
    const { flags, steps } = givenBack(
      moved,
      this.kept.living,
      findings,
      { recordedAt, by: 'staff', kind, why: '' },
      iso(at),
    )
    this.kept.save(flags, steps, iso(at))
  }
}

export const keyOf = ({ code, drain }: { code: string; drain: string | null }): string =>
  `${code} ${drain ?? ''}`

const MARKS = ['state', 'urgency', 'actBy', 'spokenAt', 'closedAt', 'endedAt', 'lookAgainAt'] as const

/** Whether nothing has moved a flag: its finding may be told anew. */
const isAs = (a: KeptFlag, b: KeptFlag): boolean => MARKS.every((mark) => a[mark] === b[mark])
