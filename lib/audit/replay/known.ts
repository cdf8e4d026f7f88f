import type { PatientRecord, Report } from '../../domain/record.ts'
import type { StaffEventType } from '../../domain/words.ts'
import { bookingsOf, HORIZON_DAYS, withOrders } from '../../store/record.ts'
import type { KnownReport, PatientHistory } from '../../store/replay-history.ts'
import { countedAt } from '../../store/rows.ts'
import type { EventRow } from '../../store/staff-events.ts'

const HORIZON_MS = HORIZON_DAYS * 86_400_000
const ms = (instant: string) => Date.parse(instant)
const iso = (at: number) => new Date(at).toISOString()

/**
 * One patient's record as it was known at each moment: a report from its receipt, an order, a booking and an event from
 * their recording, what was withdrawn or moved away until then.
 *
 * Between two `breaks` only reports, and events that were recorded as they happened, are added. So a record made for
 * the moment of a break serves a walk up to the next one, which looks at nothing before its time.
 */
export class Known {
  /** Ascending, in ms since the epoch; the first is when the patient was recorded. */
  readonly breaks: readonly number[]
  private readonly receivedAt: readonly number[]
  private readonly made = new Map<number, PatientRecord>()

  constructor(
    readonly history: PatientHistory,
    private readonly until: number,
  ) {
    this.receivedAt = history.reports.map((report) => ms(report.receivedAt))
    this.breaks = breaksOf(history, this.receivedAt, until)
  }

  /** When the record that holds at an instant ends to hold: the last instant before the next break. */
  endOf(at: number): number {
    const next = this.breaks.find((one) => one > at)
    return next === undefined ? this.until : next - 1
  }

  /** The record as it was known at an instant, with what is received until the next break. */
  at(at: number): PatientRecord {
    const since = this.breaks.findLast((one) => one <= at) ?? at
    const made = this.made.get(since) ?? this.make(since)
    this.made.set(since, made)
    return made
  }

  private make(at: number): PatientRecord {
    const { history } = this
    const now = iso(at)
    const end = this.endOf(at)
    const details = history.details.findLast(({ recordedAt }) => recordedAt <= now) ?? history.details[0]
    const plans = new Map(
      history.plans
        .filter(({ recordedAt, validFrom }) => recordedAt <= now && validFrom <= now)
        .filter(countedAt(now))
        .map((plan) => [plan.drainId, plan]),
    )
    const visits = history.visits.filter(({ recordedAt }) => recordedAt <= now)
    const drains = history.drains.flatMap(({ recordedAt, ...drain }) => {
      const plan = recordedAt <= now ? plans.get(drain.id) : undefined
      return plan ? [{ ...withOrders(drain, plan), ...bookingsOf(drain.id, visits) }] : []
    })
    const isKnown = new Set(drains.map(({ id }) => id))
    return {
      timeZone: details?.body.timeZone ?? 'UTC',
      enrolledAt: history.enrolledAt,
      usual: details?.body.usual ?? null,
      drains,
      reports: this.reports(at, end),
      staffEvents: history.events
        .filter((event) => ms(event.recordedAt) <= at || (isPrompt(event) && ms(event.recordedAt) <= end))
        .filter(countedAt(now))
        .filter(({ drainId }) => drainId === null || isKnown.has(drainId))
        .map(({ at: when, drainId, type, code }) => ({ at: when, drain: drainId, type, code })),
    }
  }

  private reports(at: number, end: number): Report[] {
    const now = iso(at)
    const counted = this.history.reports.filter((report, i) => {
      const received = this.receivedAt[i] as number
      return (
        received > at - HORIZON_MS && received <= end && (report.movedAt === null || report.movedAt > now)
      )
    })
    if (counted.every(({ supersedes }) => supersedes == null)) return counted
    const ids = new Set(counted.map(({ id }) => id))
    return counted.map((report) =>
      report.supersedes != null && !ids.has(report.supersedes) ? { ...report, supersedes: null } : report,
    )
  }
}

/** Recorded as it happened, so that it needs no break: a walk takes it from its own time on. */
const isPrompt = ({ at, recordedAt }: EventRow) => at === recordedAt

/** Events with which a new series of readings begins: a walk is faster if it begins anew with them. */
const ANEW = new Set<StaffEventType>(['placed', 'exchanged', 'replaced', 'uncapped'])
const beginsAnew = ({ type, code }: EventRow) =>
  ANEW.has(type) || (type === 'flag-closed' && code === 'output-decline')

function breaksOf(history: PatientHistory, receivedAt: readonly number[], until: number): number[] {
  const first = ms(history.recordedAt)
  const texts: (string | null)[] = [
    ...history.details.map(({ recordedAt }) => recordedAt),
    ...history.drains.map(({ recordedAt }) => recordedAt),
    ...history.plans.flatMap((plan) => [plan.recordedAt, plan.validFrom, plan.withdrawnAt]),
    ...history.visits.map(({ recordedAt }) => recordedAt),
    ...history.reports.map(({ movedAt }) => movedAt),
    ...history.events.flatMap((event) => [
      isPrompt(event) && !beginsAnew(event) ? null : event.recordedAt,
      event.withdrawnAt,
    ]),
  ]
  const instants = texts.flatMap((text) => (text === null ? [] : [ms(text)]))
  instants.push(...untidy(history.reports), ...receivedAt.map((at) => at + HORIZON_MS))
  const breaks = instants.filter((at) => at > first && at <= until)
  return [first, ...new Set(breaks)].sort((a, b) => a - b)
}

/**
 * Receipts of reports that put what was known before into another order: corrections, and the first one that tells of
 * a time before what had been told already. A walk that holds none of them has less to do.
 */
function untidy(reports: readonly KnownReport[]): number[] {
  const found: number[] = []
  let told = Number.NEGATIVE_INFINITY
  let isLate = false
  for (const { receivedAt, supersedes, readings = [], flushes = [] } of reports) {
    const times = [...readings, ...flushes].map(({ at }) => ms(at))
    const wasLate: boolean = isLate
    for (const at of times) if (at < told) isLate = true
    if (supersedes != null || isLate !== wasLate) found.push(ms(receivedAt))
    told = Math.max(told, ...times)
  }
  return found
}
