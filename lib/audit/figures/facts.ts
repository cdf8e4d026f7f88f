import type { Period } from '../../domain/figures.ts'
import { FLUTTER_TIMES } from '../../domain/flutter.ts'
import { INQUIRY_DAYS } from '../../domain/outcomes-page.ts'
import type { EventMatch } from '../../domain/outside-event.ts'
import { Refusal } from '../../domain/problem.ts'
import {
  type Asked,
  answersOf,
  type Call,
  callsSince,
  type DrainInPlace,
  drainsInPlace,
  type Event,
  eventsIn,
  flagsOpened,
  type OpenedFlag,
  type RestlessStep,
  restlessIn,
  type Span,
  verdictsOf,
} from '../../store/audit-facts.ts'
import { daysHeard, type Offset } from '../../store/audit-heard.ts'
import { clinicById } from '../../store/clinics.ts'
import type { Tx } from '../../store/index.ts'
import { grouped, type Rows, stored } from '../../store/rows.ts'
import type { Stretch } from '../ended-spans.ts'
import { atRiskThen, type DrainAtRisk, patientDays } from './at-risk.ts'
import { FOUND_WITHIN_HOURS, matchEvents } from './event-match.ts'
import { readAtRisk } from './read-at-risk.ts'
import { type Read, readingsOf } from './readings.ts'
import { daysByWeek, offsetsOf, type Week, weeksOf } from './weeks.ts'

const DAY_MS = 86_400_000

/** A call, with its time in ms. */
export type CallAt = Call & { ms: number }

/** All that the figures of a period are counted from. */
export type Facts = {
  now: number
  weeks: Week[]
  /** How far the clinic's clock is from UTC. */
  offsets: Offset[]
  drains: DrainAtRisk[]
  /** Of each patient the days at risk, and those on which anything was received, by week. */
  atRisk: Map<string, number[]>
  heard: Map<string, number[]>
  /** How and when the follow-up of a patient ended. */
  ended: Map<string, Pick<DrainInPlace, 'followUpEnd' | 'followUpEndedAt'>>
  /** When each drain came out, and each patient died as far as it was told as an outside event. */
  removals: Map<string, number[]>
  deaths: Map<string, number[]>
  /** Clinical flags that opened in the period, the earliest first. */
  flags: OpenedFlag[]
  /** Who had one, in the period or so shortly before it that it may tell of an event in it. */
  flagged: Set<string>
  restless: RestlessStep[]
  /** Calls by patient, the earliest first; and all of them. */
  calls: Map<string, CallAt[]>
  allCalls: CallAt[]
  /** What befell patients outside while they were at risk or in hospital; and how many events were of others. */
  events: Event[]
  otherEvents: number
  matches: Map<string, EventMatch>
  /** Of each patient until when it is known what became of them, in ms; and the days at risk until then, by week. */
  knownUntil: Map<string, number>
  knownDays: Map<string, number[]>
  /** What was drawn and read. */
  read: Read[]
  unreadable: number
}

/**
 * Reads what the figures are counted from: one query per kind of row, whatever the number of patients.
 * @throws Refusal not-found, where there is no such clinic
 */
export async function factsOf(tx: Tx, clinicId: string, period: Period, now: Date): Promise<Facts> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const zone = clinic.timeZone
  const weeks = weeksOf(period, zone)
  const [first] = weeks
  const last = weeks.at(-1)
  if (!first || !last)
    throw new Refusal('invalid-input', 'The period is empty.', [
      { field: 'until', value: period.until, message: 'accepted: a day after the first' },
    ])
  const iso = (ms: number) => stored(new Date(ms))
  const span: Span = { clinicId, from: iso(first.from), until: iso(last.until), now: stored(now) }

  let unreadable = 0
  const readable = <T>({ rows, unreadable: bad }: Rows<T>): T[] => {
    unreadable += bad.length
    return rows
  }
  const places = readable(await drainsInPlace(tx, span))
  const { drains, deaths, ...risk } = await readAtRisk(tx, span, places, weeks, now)
  unreadable += risk.unreadable
  // An event of the first days may have been found by a flag before them.
  const reach = iso(first.from - FOUND_WITHIN_HOURS * 3_600_000)
  const flags = readable(await flagsOpened(tx, { ...span, from: reach }))
  const restless = readable(await restlessIn(tx, span, FLUTTER_TIMES))
  const allCalls = readable(await callsSince(tx, span)).map((call) => ({ ...call, ms: Date.parse(call.at) }))
  const told = readable(await eventsIn(tx, span))
  const answers = readable(await answersOf(tx, span))
  const verdicts = readable(await verdictsOf(tx, span, first.monday, period.until))
  const offsets = offsetsOf(first.from, last.until, zone)
  const days = readable(await daysHeard(tx, span, first.monday, offsets))

  const events = told.filter(atRiskThen(drains))
  const knownUntil = knownBy(answers, places)
  return {
    now: now.getTime(),
    weeks,
    offsets,
    drains,
    atRisk: patientDays(drains, weeks),
    heard: new Map(days.map(({ patientId, days: text }) => [patientId, daysByWeek(text, weeks.length)])),
    ended: new Map(places.map((row) => [row.patientId, row])),
    removals: new Map(drains.map(({ drain, removedAt }) => [drain, removedAt])),
    deaths: new Map([...deaths].map(([patientId, at]) => [patientId, [at]])),
    flags: flags.filter(({ openedAt }) => openedAt >= span.from),
    flagged: new Set(flags.map(({ patientId }) => patientId)),
    restless,
    calls: grouped(allCalls, ({ patientId }) => patientId),
    allCalls,
    events,
    otherEvents: told.length - events.length,
    matches: new Map(matchEvents(events, flags).map((match) => [match.event, match])),
    knownUntil,
    knownDays: patientDays(
      drains.map(({ patient, stretches }) => ({
        patient,
        stretches: cutAt(stretches, knownUntil.get(patient) ?? Number.NEGATIVE_INFINITY),
      })),
      weeks,
    ),
    read: readingsOf(verdicts),
    unreadable,
  }
}

const cutAt = (stretches: readonly Stretch[], end: number): Stretch[] =>
  stretches.map(({ from, until }) => ({ from, until: Math.min(until, end) }))

/**
 * Until when it is known what became of each patient. The question after 30 days is about those alone: whoever had nothing to tell of
 * them may have had something since. The one at the end is about all the time until it was answered.
 */
function knownBy(answers: readonly Asked[], places: readonly DrainInPlace[]): Map<string, number> {
  const enrolled = new Map(places.map(({ patientId, enrolledAt }) => [patientId, Date.parse(enrolledAt)]))
  // Of each question the newest answer counts.
  const newest = new Map(answers.map((asked) => [`${asked.patientId} ${asked.about}`, asked]))
  const known = new Map<string, number>()
  for (const { patientId, about, answer, recordedAt } of newest.values()) {
    const from = enrolled.get(patientId)
    if (answer === 'unknown' || from === undefined) continue
    const until = about === 'end' ? Date.parse(recordedAt) : from + INQUIRY_DAYS * DAY_MS
    known.set(patientId, Math.max(until, known.get(patientId) ?? until))
  }
  return known
}
