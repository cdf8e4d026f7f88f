import type * as domain from '../../domain/record.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import type {
  Appearance,
  Course,
  DrainKind,
  DressingFound,
  Ease,
  FindingCode,
  General,
  Position,
  Skin,
  StaffEventType,
} from '../../domain/words.ts'
import { usualCourse } from '../../domain/words.ts'
import { type Limits, limitsOf } from '../thresholds.ts'
import type { Watch } from '../watch.ts'
import { ms, takeReport } from './take-report.ts'

/*
 * A record read once: every instant in ms since the epoch, every statement in a list of its own
 * question, sorted by time. What was known at an earlier moment is then a filter, not another parse.
 */

/** One statement on one question. `when` orders statements: the stated time, or receipt where the stated time cannot be. */
export interface Stated<T> {
  value: T
  at: number
  when: number
  receivedAt: number
  report: ReportHead
}

export interface ReportHead {
  id: string
  receivedAt: number
  supersedes: string | null
}

export interface ReadingValue {
  volumeMl: number | null
  total: boolean
}

export interface Event {
  at: number
  drain: string | null
  type: StaffEventType
  code: FindingCode | null
}

export interface PreparedDrain {
  id: string
  kind: DrainKind
  course: Course
  internalExternal: boolean
  onlyKidney: boolean
  placedAt: number
  removedAt: number | null
  cappedAt: number | null
  exchangeBookedFor: number | null
  removalBookedFor: number | null
  bagCapacityMl: number | null
  markMl: number | null
  usualMlPerDay: number | null
  usualAppearance: Appearance | null
  plan: domain.Plan
  limits: Limits
  readings: Stated<ReadingValue>[]
  flushes: Stated<number | null>[]
  eases: Stated<Ease>[]
  appearances: Stated<Appearance>[]
  found: Stated<{ found: DressingFound; changed: boolean }>[]
  changes: Stated<true>[]
  skins: Stated<Skin>[]
  positions: Stated<Position>[]
  leaks: Stated<boolean>[]
  drainings: Stated<boolean>[]
  /** Whether readings and flushes were all received in the order of their times. */
  inStep: boolean
}

export interface Prepared {
  zone: string
  enrolledAt: number
  usualPain: number
  usualGeneral: ReadonlySet<General>
  limits: Limits
  drains: PreparedDrain[]
  reports: ReportHead[]
  /** Whether any report replaces another: where none does, every report counts. */
  corrected: boolean
  /** Receipt of the newest report, and instant of the newest event of whatever kind. */
  lastReceivedAt: number
  lastEventAt: number
  temperatures: Stated<number>[]
  chills: Stated<boolean>[]
  pains: Stated<number>[]
  generals: Stated<readonly General[]>[]
  events: Event[]
  /** Every instant up to `now` at which something became known, ascending, each once. */
  known: number[]
}

const orNull = (instant: string | null | undefined) => (instant == null ? null : ms(instant))
const byWhen = (a: Stated<unknown>, b: Stated<unknown>) =>
  a.when - b.when ||
  a.receivedAt - b.receivedAt ||
  (a.report.id < b.report.id ? -1 : a.report.id > b.report.id ? 1 : 0)
const sort = <T>(list: Stated<T>[]) => {
  for (let i = 1; i < list.length; i++)
    if (byWhen(list[i - 1] as Stated<T>, list[i] as Stated<T>) > 0) return list.sort(byWhen)
  return list // the usual case: reports stand in order
}

/** Reads a record as it was known at `now`: later reports, events, cappings and removals are left out. */
export function prepare(
  record: domain.PatientRecord,
  rules: RuleSet,
  now: number,
  watch: Watch | null = null,
): Prepared {
  const limitsFor = (overrides?: domain.Overrides) =>
    watch ? watch.limitsOf(rules, overrides) : limitsOf(rules, overrides)
  const limits = limitsFor()
  const drains = record.drains.map((drain) => prepareDrain(drain, limitsFor(drain.plan.overrides)))
  const byId = new Map(drains.map((drain) => [drain.id, drain]))
  const known = [ms(record.enrolledAt)]
  const prepared: Prepared = {
    zone: record.timeZone,
    enrolledAt: ms(record.enrolledAt),
    usualPain: record.usual?.pain ?? 0,
    usualGeneral: new Set(record.usual?.general ?? []),
    limits,
    drains,
    reports: [],
    corrected: false,
    lastReceivedAt: Number.NEGATIVE_INFINITY,
    lastEventAt: Number.NEGATIVE_INFINITY,
    temperatures: [],
    chills: [],
    pains: [],
    generals: [],
    events: [],
    known: [],
  }
  for (const drain of drains)
    for (const at of [drain.placedAt, drain.cappedAt, drain.removedAt]) if (at !== null) known.push(at)
  for (const event of record.staffEvents) {
    const at = ms(event.at)
    if (at > now) continue
    known.push(at)
    prepared.events.push({ at, drain: event.drain ?? null, type: event.type, code: event.code ?? null })
  }
  prepared.events.sort((a, b) => a.at - b.at)
  prepared.lastEventAt = Math.max(...known)
  const tolerance = limits.suspectFutureMinutes * 60_000
  for (const report of record.reports) {
    const receivedAt = ms(report.receivedAt)
    if (receivedAt > now) continue
    known.push(receivedAt)
    const head = { id: report.id, receivedAt, supersedes: report.supersedes ?? null }
    prepared.reports.push(head)
    if (receivedAt > prepared.lastReceivedAt) prepared.lastReceivedAt = receivedAt
    if (head.supersedes !== null) prepared.corrected = true
    takeReport(report, head, tolerance, prepared, byId)
  }
  for (const list of [prepared.temperatures, prepared.chills, prepared.pains, prepared.generals])
    sort<unknown>(list)
  for (const d of drains) {
    for (const list of [
      d.readings,
      d.flushes,
      d.eases,
      d.appearances,
      d.found,
      d.changes,
      d.skins,
      d.positions,
      d.leaks,
      d.drainings,
    ])
      sort<unknown>(list)
    d.inStep = inStep(d)
  }
  prepared.known = ascending(known, now)
  if (prepared.known.length === 0) prepared.known.push(now) // before enrolment and placement: there is still a now
  return prepared
}

/** The instants up to `now`, ascending, each once. Reports mostly come in order, and then nothing is sorted. */
function ascending(instants: number[], now: number): number[] {
  for (let i = 1; i < instants.length; i++)
    if ((instants[i - 1] as number) > (instants[i] as number)) {
      instants.sort((a, b) => a - b)
      break
    }
  return instants.filter((at, i) => at <= now && at !== instants[i - 1])
}

/** Whether no reading or flush was received after one of a later time. */
function inStep({ readings, flushes }: PreparedDrain): boolean {
  let f = 0
  let receivedAt = Number.NEGATIVE_INFINITY
  let before: Stated<unknown> | null = null
  for (const reading of readings) {
    if (before?.at === reading.at && before.receivedAt !== reading.receivedAt) return false // they make one stretch
    before = reading
    for (; f < flushes.length && (flushes[f] as Stated<unknown>).at < reading.at; f++) {
      if ((flushes[f] as Stated<unknown>).receivedAt < receivedAt) return false
      receivedAt = (flushes[f] as Stated<unknown>).receivedAt
    }
    if (reading.receivedAt < receivedAt || reading.at !== reading.when) return false
    receivedAt = reading.receivedAt
  }
  return flushes.slice(f).every((flush) => flush.receivedAt >= receivedAt)
}

function prepareDrain(drain: domain.Drain, limits: Limits): PreparedDrain {
  return {
    id: drain.id,
    kind: drain.kind,
    course: drain.course ?? usualCourse[drain.kind],
    internalExternal: drain.drainage === 'internal-external',
    onlyKidney: drain.onlyKidney ?? false,
    placedAt: ms(drain.placedAt),
    removedAt: orNull(drain.removedAt),
    cappedAt: orNull(drain.cappedAt),
    exchangeBookedFor: orNull(drain.exchangeBookedFor),
    removalBookedFor: orNull(drain.removalBookedFor),
    bagCapacityMl: drain.bagCapacityMl ?? null,
    markMl: drain.markMl ?? null,
    usualMlPerDay: drain.usualMlPerDay ?? null,
    usualAppearance: drain.usualAppearance ?? null,
    plan: drain.plan,
    limits,
    readings: [],
    flushes: [],
    eases: [],
    appearances: [],
    found: [],
    changes: [],
    skins: [],
    positions: [],
    leaks: [],
    drainings: [],
    inStep: true,
  }
}
