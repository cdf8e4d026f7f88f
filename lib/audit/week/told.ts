import { capital } from '../../domain/capital.ts'
import { eventLabels } from '../../domain/labels.ts'
import { addDays, localDate } from '../../domain/local-time.ts'
import { outsideEventLabels } from '../../domain/outcomes-page.ts'
import type { OutsideEvent } from '../../domain/outside-event.ts'
import type { PatientRecord, Report, StaffEvent } from '../../domain/record.ts'
import { reportLines } from '../../domain/report-text.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { standingReports } from '../../domain/standing-reports.ts'
import { DAYS_AFTER, DAYS_BEFORE, type Told } from '../../domain/week-page.ts'
import { assess } from '../../rules/assess.ts'
import type { Composed } from '../../store/record.ts'

const DAY_MS = 86_400_000
/** Reports from before the instant are shown so far back, in days; and of a chatty week so many at the most. */
const SAID_DAYS = 7
const MOST = 40
const back = (at: string, days: number) => Date.parse(at) - days * DAY_MS

/** One patient as known at an item's instant (`before`) and at the end of the days after (`later`). */
export type Telling = {
  before: Composed
  later: Composed
  outside: readonly OutsideEvent[]
  rules: RuleSet
  at: string
  end: string
  nowMs: number
}

/** What the rules worked out of the readings, and nothing of what they found: that would tell. */
const outputOf = (record: PatientRecord, rules: RuleSet, at: string) => assess(record, rules, at).drains

/** Of each drain what is usual, in mL a day, as known then. */
export const usualOf = (record: PatientRecord, rules: RuleSet, at: string): Map<string, number> =>
  new Map(
    outputOf(record, rules, at).flatMap(({ drain, baselineMlPerDay }) =>
      baselineMlPerDay === null ? [] : [[drain, baselineMlPerDay] as const],
    ),
  )

export function toldBefore({ before, outside, rules, at }: Telling): Told {
  const { record } = before
  const today = localDate(at, record.timeZone)
  const from = back(at, DAYS_BEFORE)
  const events = shownEvents(record).filter((event) => Date.parse(event.at) >= from)
  const known = outside.filter(
    (event) => counts(event) && event.recordedAt <= at && event.at <= at && Date.parse(event.at) >= from,
  )
  return {
    until: at,
    days: daysOf(record, rules, at, addDays(today, 1 - DAYS_BEFORE), today),
    reports: said(before, (report) => Date.parse(report.receivedAt) >= back(at, SAID_DAYS), at),
    events: inOrder([...events.map(eventLine(before)), ...known.map(outsideLine(before))]),
  }
}

export function toldAfter({ before, later, outside, rules, at, end, nowMs }: Telling): Told {
  const { record } = later
  const today = localDate(at, record.timeZone)
  const known = new Set(shownEvents(before.record).map((event) => JSON.stringify(event)))
  const events = shownEvents(record).filter((event) => !known.has(JSON.stringify(event)))
  // What befell the patient outside is learned late: it is shown by when it was, whenever it was learned.
  const [fromMs, untilMs] = [back(at, DAYS_BEFORE), back(at, -DAYS_AFTER)]
  const befell = outside.filter((event) => {
    const ms = Date.parse(event.at)
    const wasKnown = event.recordedAt <= at && event.at <= at
    return counts(event) && !wasKnown && ms >= fromMs && ms <= untilMs && ms <= nowMs
  })
  return {
    until: end,
    days: daysOf(record, rules, end, today, addDays(today, DAYS_AFTER)),
    reports: said(later, (report) => Date.parse(report.receivedAt) > Date.parse(at), at),
    events: inOrder([...events.map(eventLine(later)), ...befell.map(outsideLine(later))]),
  }
}

const counts = ({ withdrawnAt }: OutsideEvent) => withdrawnAt === null

/** The closing of a flag is a staff event, too, and would tell that one stood. */
const shownEvents = ({ staffEvents }: PatientRecord) =>
  staffEvents.filter(({ type }) => type !== 'flag-closed')

/** Net output by local day, each day there whether anything is known of it or not. */
function daysOf(
  record: PatientRecord,
  rules: RuleSet,
  at: string,
  from: string,
  until: string,
): Told['days'] {
  const last = localDate(at, record.timeZone) < until ? localDate(at, record.timeZone) : until
  return outputOf(record, rules, at).map(({ drain, days }) => {
    const known = new Map(days.map((day) => [day.date, day]))
    const all: Told['days'][number]['days'] = []
    for (let date = from; date <= last; date = addDays(date, 1)) {
      const day = known.get(date)
      all.push({ date, netMl: day?.netMl ?? null, coverage: day?.coverage ?? 0 })
    }
    return { drain, days: all }
  })
}

/**
 * What was reported, without by which way: a report that staff took down comes of a call. So only the words of
 * the patient or a helper are shown.
 */
function said(
  { record, reports, drains }: Composed,
  isShown: (report: Report) => boolean,
  at: string,
): Told['reports'] {
  const heads = new Map(reports.map((report) => [report.id, report]))
  const nameOf = (id: string) => capital(drains.find((drain) => drain.id === id)?.label ?? id)
  const naming = { nameOf, now: Date.parse(at), zone: record.timeZone }
  return standingReports(record.reports)
    .filter(isShown)
    .slice(-MOST)
    .map((report) => {
      const head = heads.get(report.id)
      const isOwn = head?.reporter === 'patient' || head?.reporter === 'helper'
      return {
        receivedAt: report.receivedAt,
        lines: reportLines(report, naming),
        words: isOwn ? (head?.note ?? null) : null,
      }
    })
}

type Line = Told['events'][number]
const labelOf = ({ drains }: Composed, id: string | null | undefined) => {
  const label = drains.find((drain) => drain.id === id)?.label
  return label ? `, ${label}` : ''
}
const eventLine =
  (composed: Composed) =>
  ({ at, type, drain }: StaffEvent): Line => ({ at, says: `${eventLabels[type]}${labelOf(composed, drain)}` })
const outsideLine =
  (composed: Composed) =>
  ({ at, kind, drain }: OutsideEvent): Line => ({
    at,
    says: `Outside: ${outsideEventLabels[kind].toLowerCase()}${labelOf(composed, drain)}`,
  })
const inOrder = (lines: readonly Line[]) =>
  lines.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).slice(-MOST)
