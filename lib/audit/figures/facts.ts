import type { Period } from '../../domain/figures.ts'
import { FLUTTER_TIMES } from '../../domain/flutter.ts'
import type { EventMatch, InquiryAnswer } from '../../domain/outside-event.ts'
import { Refusal } from '../../domain/problem.ts'
import {
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
  staysIn,
  tubeSteps,
  verdictsOf,
} from '../../store/audit-facts.ts'
import { daysHeard, type Offset } from '../../store/audit-heard.ts'
import { clinicById } from '../../store/clinics.ts'
import type { Tx } from '../../store/index.ts'
import { grouped, type Rows, stored } from '../../store/rows.ts'
import { type DrainAtRisk, drainsAtRisk, patientDays } from './at-risk.ts'
import { FOUND_WITHIN_HOURS, matchEvents } from './event-match.ts'
import { type Read, readingsOf } from './readings.ts'
import { offsetsOf, type Week, weeksOf } from './weeks.ts'

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
  restless: RestlessStep[]
  /** Calls by patient, the earliest first; and all of them. */
  calls: Map<string, CallAt[]>
  allCalls: CallAt[]
  events: Event[]
  matches: Map<string, EventMatch>
  /** The newest answer about what became of a patient. */
  answers: Map<string, InquiryAnswer>
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
  const steps = readable(await tubeSteps(tx, span))
  const stays = readable(await staysIn(tx, span))
  // An event of the first days may have been found by a flag before them.
  const reach = iso(first.from - FOUND_WITHIN_HOURS * 3_600_000)
  const flags = readable(await flagsOpened(tx, { ...span, from: reach }))
  const restless = readable(await restlessIn(tx, span, FLUTTER_TIMES))
  const allCalls = readable(await callsSince(tx, span)).map((call) => ({ ...call, ms: Date.parse(call.at) }))
  const events = readable(await eventsIn(tx, span))
  const answers = readable(await answersOf(tx, span))
  const verdicts = readable(await verdictsOf(tx, span, first.monday, period.until))
  const offsets = offsetsOf(first.from, last.until, zone)
  const days = readable(await daysHeard(tx, span, first.monday, offsets))

  const drains = drainsAtRisk(places, steps, stays, weeks, now.getTime())
  return {
    now: now.getTime(),
    weeks,
    offsets,
    drains,
    atRisk: patientDays(drains, weeks),
    heard: new Map(days.map(({ patientId, days: text }) => [patientId, byWeek(text, weeks.length)])),
    ended: new Map(places.map((row) => [row.patientId, row])),
    removals: new Map(drains.map(({ drain, removedAt }) => [drain, removedAt])),
    deaths: new Map(
      events.flatMap(({ kind, patientId, at }) =>
        kind === 'death' ? [[patientId, [Date.parse(at)]] as const] : [],
      ),
    ),
    flags: flags.filter(({ openedAt }) => openedAt >= span.from),
    restless,
    calls: grouped(allCalls, ({ patientId }) => patientId),
    allCalls,
    events,
    matches: new Map(matchEvents(events, flags).map((match) => [match.event, match])),
    answers: new Map(answers.map(({ patientId, answer }) => [patientId, answer])),
    read: readingsOf(verdicts),
    unreadable,
  }
}

/** `0:5,1:7` as the days of each week. */
function byWeek(text: string, weeks: number): number[] {
  const days = Array.from({ length: weeks }, () => 0)
  for (const one of text.split(',')) {
    const [week = -1, count = 0] = one.split(':').map(Number)
    if (week in days) days[week] = count
  }
  return days
}
