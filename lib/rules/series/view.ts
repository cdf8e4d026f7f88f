import type { Course, General } from '../../domain/words.ts'
import { type Output, outputOf } from './output.ts'
import type { Event, Prepared, PreparedDrain, ReportHead, Stated } from './prepare.ts'
import { timeIsSuspect } from './stretches.ts'
import { type Tube, tubeOf } from './tube.ts'

/*
 * What had been received by one instant. Findings are judged on a view, now and, to find since when
 * they hold, at earlier instants. Everything in a view is worked out when a rule first asks for it.
 */

export class View {
  readonly drains: DrainView[]
  readonly events: readonly Event[]
  private readonly replaced: ReadonlySet<ReportHead> | null
  private readonly lists = new Map<readonly unknown[], readonly unknown[]>()

  /** @param latest the view that knows most, of the same record; left out, this one is it */
  constructor(
    readonly record: Prepared,
    readonly cut: number,
    readonly latest: View | null = null,
  ) {
    this.events =
      record.events.at(-1) && (record.events.at(-1) as Event).at > cut
        ? record.events.filter((e) => e.at <= cut)
        : record.events
    this.replaced = record.corrected ? replacedBy(record.reports, cut) : null
    this.drains = record.drains.map((drain, i) => new DrainView(this, drain, latest?.drains[i] ?? null))
  }

  /** The statements of a list that had been received and that no correction has replaced, oldest first. */
  seen<T>(list: readonly Stated<T>[]): readonly Stated<T>[] {
    if (this.replaced === null && this.cut >= this.record.lastReceivedAt) return list
    let seen = this.lists.get(list) as readonly Stated<T>[] | undefined
    if (!seen) {
      seen = list.filter((s) => this.counts(s))
      this.lists.set(list, seen)
    }
    return seen
  }

  /** Likewise, with what was corrected since: for the few things that a correction does not take back. */
  everStated<T>(list: readonly Stated<T>[]): readonly Stated<T>[] {
    return list.filter((s) => s.receivedAt <= this.cut)
  }

  private counts(s: Stated<unknown>): boolean {
    return s.receivedAt <= this.cut && !this.replaced?.has(s.report)
  }

  newest<T>(list: readonly Stated<T>[]): Stated<T> | null {
    for (let i = list.length - 1; i >= 0; i--) {
      const s = list[i] as Stated<T>
      if (this.counts(s)) return s
    }
    return null
  }

  /** Receipt of the newest report, whatever it says; null where none has come. */
  get lastReportAt(): number | null {
    let last: number | null = null
    for (const report of this.record.reports)
      if (report.receivedAt <= this.cut && (last === null || report.receivedAt > last))
        last = report.receivedAt
    return last
  }

  /** Drains that are in the patient: placed, and not removed since. */
  get active(): DrainView[] {
    return this.drains.filter((drain) => drain.tube.active)
  }

  isUsual(symptom: General): boolean {
    return this.record.usualGeneral.has(symptom)
  }
}

/** One drain as it was known at the view's instant. */
export class DrainView {
  private ownTube: Tube | undefined
  private ownOutput: Output | undefined
  private ownLastReadingAt: number | null | undefined

  /** @param latest the same drain in the latest view; null in that view itself */
  constructor(
    readonly view: View,
    readonly facts: PreparedDrain,
    readonly latest: DrainView | null,
  ) {}

  get id() {
    return this.facts.id
  }
  get limits() {
    return this.facts.limits
  }
  get course(): Course {
    return this.facts.course
  }
  get tube(): Tube {
    this.ownTube ??=
      this.latest && this.view.cut >= this.view.record.lastEventAt
        ? this.latest.tube
        : tubeOf(this.facts, this.view.events, this.view.cut)
    return this.ownTube
  }
  get output(): Output {
    this.ownOutput ??= outputOf(this)
    return this.ownOutput
  }
  /** Time of the newest reading, measured or not; one whose time cannot be counts at its receipt. Null before the first. */
  get lastReadingAt(): number | null {
    if (this.ownLastReadingAt === undefined) {
      let last = Number.NEGATIVE_INFINITY
      for (const r of this.view.seen(this.facts.readings))
        last = Math.max(last, timeIsSuspect(this, r) ? r.receivedAt : r.at)
      this.ownLastReadingAt = last === Number.NEGATIVE_INFINITY ? null : last
    }
    return this.ownLastReadingAt
  }
  /** Instant of the newest 'flag-closed' for a code, or null. */
  closedAt(code: Event['code']): number | null {
    for (let i = this.view.events.length - 1; i >= 0; i--) {
      const e = this.view.events[i] as Event
      if (e.type === 'flag-closed' && e.code === code && (e.drain === this.id || e.drain === null))
        return e.at
    }
    return null
  }
}

/**
 * Reports that a correction has replaced, among those received by `cut`. Of several corrections of one
 * report the one received last counts, so the others are replaced too.
 */
function replacedBy(reports: readonly ReportHead[], cut: number): ReadonlySet<ReportHead> {
  const seen = reports.filter((report) => report.receivedAt <= cut)
  const byId = new Map(seen.map((report) => [report.id, report]))
  const replaced = new Set<ReportHead>()
  const families = new Map<string, ReportHead>()
  for (const report of seen) {
    const target = report.supersedes === null ? undefined : byId.get(report.supersedes)
    if (target) replaced.add(target)
  }
  /** What a chain of corrections goes back to; it may not have been received yet. */
  const rootOf = (report: ReportHead): string => {
    if (report.supersedes === null) return report.id
    const target = byId.get(report.supersedes)
    return target ? rootOf(target) : report.supersedes
  }
  for (const report of seen) {
    if (replaced.has(report)) continue
    const root = rootOf(report)
    const other = families.get(root)
    if (!other) families.set(root, report)
    else {
      const later = other.receivedAt - report.receivedAt || (other.id < report.id ? -1 : 1)
      replaced.add(later < 0 ? other : report)
      if (later < 0) families.set(root, report)
    }
  }
  return replaced
}
