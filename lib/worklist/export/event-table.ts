import { type AskedAnswer, standingCalls } from '../../domain/callback.ts'
import type { CsvCell } from '../../domain/csv-text.ts'
import {
  agreedLabels,
  appearanceLabels,
  easeLabels,
  eventLabels,
  findingLabels,
  foundLabels,
  generalLabels,
  outcomeLabels,
  positionLabels,
  reporterLabels,
  skinLabels,
  stepLabels,
  urgencyLabels,
  visitLabels,
  visitStateLabels,
} from '../../domain/labels.ts'
import { withOffset } from '../../domain/local-time.ts'
import type { PatientPage } from '../../domain/patient-page.ts'
import type { Report } from '../../domain/record.ts'
import { standingReports } from '../../domain/standing-reports.ts'
import { IDENTIFIERS, identifiersOf, type Table } from './day-table.ts'

/** One thing that was said or done. `by` is who said or did it. */
type Event = {
  at: string
  what: string
  drain?: string | null
  value?: CsvCell
  unit?: string
  detail?: string | null
  by: string
}

/**
 * One row per thing that was said or done, in order of time, in the patient's own zone: what every report tells, events,
 * orders, visits, flags, calls and notes. Of corrected reports and calls the one that counts; what was taken back is left out.
 */
export function eventTable(page: PatientPage): Table {
  const { timeZone } = page.record
  const labelOf = (drain: string) => page.labels[drain]?.label ?? drain
  const events = [
    ...standingReports(page.record.reports).flatMap((report) => told(report, page)),
    ...done(page),
    ...flagged(page),
    ...called(page),
  ].toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
  return {
    names: [...IDENTIFIERS, 'at', 'time_zone', 'what', 'drain', 'value', 'unit', 'detail', 'by'],
    rows: events.map(({ at, what, drain, value, unit, detail, by }) => [
      ...identifiersOf(page),
      withOffset(Date.parse(at), timeZone),
      timeZone,
      what,
      drain ? labelOf(drain) : null,
      value ?? null,
      unit ?? null,
      detail || null,
      by,
    ]),
  }
}

const join = (parts: (string | null | undefined | false)[]) => parts.filter(Boolean).join(', ')
const answer = (value: boolean) => (value ? 'yes' : 'no')

/** What one report tells, a row an answer. */
function told(report: Report, page: PatientPage): Event[] {
  const about = page.reports[report.id]
  const by = about
    ? join([reporterLabels[about.reporter], about.sentBy, about.enteredBy && `entered by ${about.enteredBy}`])
    : 'not known who'
  const events: Event[] = []
  for (const { at, drain, volumeMl, total, appearance } of report.readings ?? []) {
    const detail = join([volumeMl === null && 'could not measure', total && 'sum of several emptyings'])
    events.push({ at, what: 'reading', drain, value: volumeMl, unit: 'mL', detail, by })
    if (appearance) events.push({ at, what: 'appearance', drain, value: appearanceLabels[appearance], by })
  }
  for (const { at, drain, volumeMl, ease } of report.flushes ?? [])
    events.push({
      at,
      what: 'flush',
      drain,
      value: volumeMl ?? null,
      unit: 'mL',
      detail: ease && easeLabels[ease],
      by,
    })
  for (const { at, drain, found, skin, changed } of report.dressings ?? [])
    events.push({
      at,
      what: 'dressing',
      drain,
      value: changed === undefined ? 'seen' : changed ? 'changed' : 'not changed',
      detail: join([found && `found ${foundLabels[found]}`, skin && `skin ${skinLabels[skin]}`]),
      by,
    })
  const { symptoms } = report
  if (symptoms) {
    const { at, temperatureC, chills, pain, general, drains } = symptoms
    if (temperatureC != null) events.push({ at, what: 'temperature', value: temperatureC, unit: '°C', by })
    if (chills != null) events.push({ at, what: 'chills', value: answer(chills), by })
    if (pain != null) events.push({ at, what: 'pain', value: pain, unit: 'of 10', by })
    for (const one of general ?? []) events.push({ at, what: 'symptom', value: generalLabels[one], by })
    for (const { drain, position, leak, draining } of drains ?? []) {
      if (position) events.push({ at, what: 'position', drain, value: positionLabels[position], by })
      if (leak != null) events.push({ at, what: 'leak', drain, value: answer(leak), by })
      if (draining != null) events.push({ at, what: 'draining', drain, value: answer(draining), by })
    }
  }
  if (about?.note)
    events.push({ at: report.receivedAt, what: 'words of the reporter', detail: about.note, by })
  return events
}

/** What staff did to the drains, ordered and booked. */
const done = (page: PatientPage): Event[] => [
  ...page.record.drains.map(({ id, placedAt }) => ({
    at: placedAt,
    what: 'event',
    drain: id,
    value: eventLabels.placed,
    by: 'enrolment',
  })),
  ...page.events
    .filter(({ withdrawnAt }) => withdrawnAt === null)
    .map(({ at, drain, type, note, by }) => ({
      at,
      what: 'event',
      drain,
      value: eventLabels[type],
      detail: note,
      by,
    })),
  ...Object.entries(page.orders).flatMap(([drain, versions]) =>
    versions.map(({ validFrom, version, changes, why, by }) => ({
      at: validFrom,
      what: 'orders',
      drain,
      value: `version ${version}`,
      detail: join([...changes, why && `why: ${why}`]),
      by,
    })),
  ),
  ...page.visits.map(({ changedAt, drain, kind, state, bookedFor, why, changedBy }) => ({
    at: changedAt,
    what: 'visit',
    drain,
    value: `${visitLabels[kind]} ${visitStateLabels[state]}`,
    detail: join([bookedFor && `for ${withOffset(Date.parse(bookedFor), page.record.timeZone)}`, why]),
    by: changedBy,
  })),
]

/** Each step in the life of a flag. */
function flagged(page: PatientPage): Event[] {
  const flags = new Map(page.flags.map((flag) => [flag.id, flag]))
  return page.steps.flatMap(({ flagId, at, kind, by, why, urgency }) => {
    const flag = flags.get(flagId)
    if (!flag) return []
    return [
      {
        at,
        what: `flag ${stepLabels[kind]}`,
        drain: flag.drain,
        value: findingLabels[flag.code],
        detail: join([urgencyLabels[urgency], why]),
        by: by ?? 'the rules',
      },
    ]
  })
}

const called = (page: PatientPage): Event[] => [
  ...standingCalls(page.callbacks).flatMap(({ at, by, outcome, agreed, note, asked }) => [
    {
      at,
      what: 'call',
      value: outcomeLabels[outcome],
      detail: [agreed.map((one) => agreedLabels[one]).join(', '), note].filter(Boolean).join('; '),
      by,
    },
    ...asked.map((one) => askedIn(one, at, by)),
  ]),
  ...page.notes
    .filter(({ undoneAt }) => undoneAt === null)
    .map(({ at, by, text }) => ({ at, what: 'note', detail: text, by })),
]

/** A question of a call, and its answer; empty where none was noted. */
const askedIn = ({ question, drain, answer }: AskedAnswer, at: string, by: string): Event => ({
  ...{ at, what: 'asked', drain, value: answer || null, detail: question, by },
})
