import type { Drain, PatientRecord, Report, StaffEvent } from './record.ts'
import { standingReports } from './standing-reports.ts'

const HOUR_MS = 3_600_000
/** A reading whose time lies this far after its receipt counts at its receipt, as in the rules. */
const CLOCK_SLACK_MS = 15 * 60_000

/** After how many hours a log that is late troubles a nurse: the thresholds of log-missed in the rule set. */
export type LogLimits = { graceHours: number; onlyKidneyGraceHours: number; neverHours: number }

/** As rule set 2026.1 has them; a test holds the two together. */
export const usualLogLimits: LogLimits = { graceHours: 12, onlyKidneyGraceHours: 4, neverHours: 24 }

export type DueLog = {
  drain: string
  /** Since when the log is waited for: the last one, the newest tube, an uncapping or enrolment. */
  sinceMs: number
  dueMs: number
  /** When the missed log becomes a nurse's matter. */
  upkeepMs: number
}

/**
 * When the next log of each drain in the patient is due, by the same reading of the record as the rules'
 * log-missed: a capped drain gives no volume, so that any report is its log; a removed drain is asked for no more.
 */
export function dueLogs(record: PatientRecord, limits: LogLimits, nowMs: number): DueLog[] {
  const reports = standingReports(record.reports.filter(({ receivedAt }) => Date.parse(receivedAt) <= nowMs))
  const events = record.staffEvents.filter(({ at }) => Date.parse(at) <= nowMs)
  return record.drains.flatMap((drain) => {
    const own = events.filter((event) => event.drain === drain.id)
    const tube = tubeOf(drain, own, nowMs)
    if (!tube) return []
    const log = tube.isCapped ? lastReceipt(record.reports, nowMs) : lastReading(drain, reports)
    const enrolledMs = Date.parse(record.enrolledAt)
    const sinceMs = Math.max(log, tube.startMs, enrolledMs)
    const dueMs = sinceMs + drain.plan.logEveryHours * HOUR_MS
    const grace = drain.onlyKidney ? limits.onlyKidneyGraceHours : limits.graceHours
    const neverMs =
      log === Number.NEGATIVE_INFINITY
        ? Math.max(enrolledMs, Date.parse(drain.placedAt)) + limits.neverHours * HOUR_MS
        : Number.POSITIVE_INFINITY
    return [{ drain: drain.id, sinceMs, dueMs, upkeepMs: Math.min(dueMs + grace * HOUR_MS, neverMs) }]
  })
}

/** Receipt of the newest report, whatever it says; minus infinity where none has come. */
export const lastReceipt = (reports: readonly Report[], nowMs: number): number =>
  reports
    .map(({ receivedAt }) => Date.parse(receivedAt))
    .filter((ms) => ms <= nowMs)
    .reduce((last, ms) => Math.max(last, ms), Number.NEGATIVE_INFINITY)

function lastReading(drain: Drain, reports: readonly Report[]): number {
  const placedMs = Date.parse(drain.placedAt)
  let last = Number.NEGATIVE_INFINITY
  for (const { receivedAt, readings } of reports) {
    const receivedMs = Date.parse(receivedAt)
    for (const { drain: of, at } of readings ?? []) {
      if (of !== drain.id) continue
      const ms = Date.parse(at)
      last = Math.max(last, ms > receivedMs + CLOCK_SLACK_MS || ms < placedMs ? receivedMs : ms)
    }
  }
  return last
}

const NEW_TUBE = new Set<StaffEvent['type']>(['placed', 'exchanged', 'replaced'])
const latest = (instants: readonly number[]) =>
  instants.reduce((last, ms) => Math.max(last, ms), Number.NEGATIVE_INFINITY)

/** Start of the tube's own series, and whether it is capped; null where it is not in the patient. */
function tubeOf(
  drain: Drain,
  events: readonly StaffEvent[],
  nowMs: number,
): { startMs: number; isCapped: boolean } | null {
  const when = (is: (event: StaffEvent) => boolean) =>
    latest(events.filter(is).map(({ at }) => Date.parse(at)))
  const byNow = (at: string | null | undefined) =>
    at != null && Date.parse(at) <= nowMs ? Date.parse(at) : Number.NEGATIVE_INFINITY
  const placedMs = Date.parse(drain.placedAt)
  const newestMs = Math.max(
    placedMs,
    when(({ type }) => NEW_TUBE.has(type)),
  )
  const removedMs = Math.max(
    byNow(drain.removedAt),
    when(({ type }) => type === 'removed'),
  )
  if (placedMs > nowMs || removedMs > newestMs || (removedMs === newestMs && newestMs === placedMs))
    return null
  const cappedMs = Math.max(
    byNow(drain.cappedAt),
    when(({ type }) => type === 'capped'),
  )
  const uncappedMs = when(({ type }) => type === 'uncapped')
  return {
    startMs: Math.max(newestMs, uncappedMs),
    isCapped: cappedMs !== Number.NEGATIVE_INFINITY && cappedMs >= uncappedMs,
  }
}
