import type { Assessment } from '../domain/assessment.ts'
import { inPlace } from '../domain/call-sheet.ts'
import { addDays, localDate } from '../domain/local-time.ts'
import type { PageReach, PatientPage } from '../domain/patient-page.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { standingReports } from '../domain/standing-reports.ts'
import { assess } from '../rules/assess.ts'
import { daysUntil } from '../rules/drain-output.ts'
import type { Tx } from '../store/index.ts'
import { keptAssessment } from '../store/patient-states.ts'
import { recentOf } from '../store/recent.ts'
import { type Composed, composeRecord, wholeSpan } from '../store/record.ts'
import { stored } from '../store/rows.ts'

const DAY_MS = 86_400_000
/** A page that was just opened reaches back so many days, which are two of the choices of its timeline, and over so many reports. */
const RECENT_DAYS = 30
const RECENT_REPORTS = 20

/** A patient's record for their page, with what the rules say of the whole of it. */
export type PageRecord = { composed: Composed; assessment: Assessment; leftOut: PatientPage['leftOut'] }

/**
 * Reads the record that a page shows: the last days with the assessment that is stored, if it is what the rules would
 * say now; else, or if all is asked for, the whole record, which is then assessed. Null if there is no such patient.
 */
export async function pageRecord(
  tx: Tx,
  patientId: string,
  { now, rules, reach }: { now: Date; rules: RuleSet; reach: PageReach },
): Promise<PageRecord | null> {
  const recent = reach === 'recent' ? await recentRecord(tx, patientId, now, rules) : null
  if (recent) return recent
  const composed = await composeRecord(tx, patientId, now)
  return composed && { composed, assessment: assess(composed.record, rules, stored(now)), leftOut: null }
}

async function recentRecord(
  tx: Tx,
  patientId: string,
  now: Date,
  rules: RuleSet,
): Promise<PageRecord | null> {
  const kept = await keptAssessment(tx, patientId)
  if (!kept) return null
  // A day more than is shown, so that the first day is there from its midnight in every zone.
  const wanted = { from: stored(new Date(now.getTime() - (RECENT_DAYS + 1) * DAY_MS)), least: RECENT_REPORTS }
  const { from, earlier } = await recentOf(tx, wholeSpan(patientId, now), wanted)
  const composed = await composeRecord(tx, patientId, now, from)
  if (!composed || !holds(kept, composed, rules, stored(now))) return null
  if (earlier > 0 && !namesLastFlushes(composed)) return null
  const { timeZone: zone } = composed.record
  const before = earlier > 0 ? addDays(localDate(from, zone), 1) : null
  return {
    composed,
    assessment: {
      ...kept,
      asOf: stored(now),
      drains: kept.drains.map((drain) => ({
        ...drain,
        days: daysUntil(drain.days, zone, now.getTime()).filter(({ date }) => !before || date >= before),
      })),
    },
    leftOut: before === null ? null : { before, reports: earlier },
  }
}

/**
 * Whether a stored assessment is what the rules would say now: by the same rule set, before time alone changes anything,
 * and of all that is known. Whatever is stored has the patient assessed; that nothing is newer is seen all the same.
 */
function holds({ asOf, ruleSet, nextCheckAt }: Assessment, composed: Composed, rules: RuleSet, at: string) {
  const { reports, plans, events, visits, record } = composed
  const known = [
    ...reports.map(({ receivedAt }) => receivedAt),
    ...plans.flatMap(({ recordedAt, validFrom, withdrawnAt }) => [recordedAt, validFrom, withdrawnAt]),
    ...events.flatMap((event) => [event.recordedAt, event.at, event.withdrawnAt]),
    ...visits.map(({ recordedAt }) => recordedAt),
    ...record.drains.flatMap(({ placedAt, cappedAt, removedAt }) => [placedAt, cappedAt, removedAt]),
  ]
  const isNews = (instant: string) => stored(instant) > stored(asOf) && stored(instant) <= at
  return (
    ruleSet === rules.version &&
    stored(asOf) <= at &&
    (nextCheckAt === null || at < stored(nextCheckAt)) &&
    !known.some((instant) => instant != null && isNews(instant))
  )
}

/** Whether the last flush of each drain that is to be flushed is among the reports: the call sheet tells of it. */
function namesLastFlushes({ record }: Composed): boolean {
  const flushed = new Set(
    standingReports(record.reports).flatMap(({ flushes }) => (flushes ?? []).map(({ drain }) => drain)),
  )
  return inPlace({ record }).every(({ id, plan }) => !plan.flush || flushed.has(id))
}
