import { weighsOnCall, whomToCall } from './call-person.ts'
import { cappedSince, nameOf, newestTube } from './call-sheet-drains.ts'
import { type Line, type SheetTarget, textOf, tie } from './call-sheet-line.ts'
import { type Callback, standingCalls } from './callback.ts'
import { isUrinary, usualCourse } from './kinds.ts'
import { agreedLabels, easeLabels, generalLabels, kindLabels, outcomeLabels, sideLabels } from './labels.ts'
import { dayMonth, daysBetween, localDate, when } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'
import type { Drain } from './record.ts'
import { standingReports } from './standing-reports.ts'

const PERSON: SheetTarget = { to: 'person' }
const ORDERS: SheetTarget = { to: 'orders' }
/** Calls that the sheet tells of; the list below has them all. */
const CALLS = 3
/** Longest note of a call that is told whole, in characters. */
const NOTE = 120

/** One drain: what and where, since when, its visits, and what is ordered of it. */
export function drainLines(page: PatientPage, drain: Drain, now: number): Line[] {
  const { timeZone: zone } = page.record
  const tube = newestTube(page, drain)
  const since = localDate(tube?.at ?? drain.placedAt, zone)
  const day = daysBetween(since, localDate(now, zone)) + 1
  const size = page.labels[drain.id]?.frenchSize
  const how =
    tube?.type === 'exchanged' ? ' of the exchange' : tube?.type === 'replaced' ? ' of the new tube' : ''
  const visits = page.visits
    .filter(({ drain: of, state }) => of === drain.id && (state === 'requested' || state === 'booked'))
    .map(({ kind, state, bookedFor }) =>
      state === 'booked' && bookedFor
        ? `, ${kind} booked ${dayMonth(localDate(bookedFor, zone))}`
        : `, ${kind} requested`,
    )
  const capped = cappedSince(page, drain)
  const kind = `${nameOf(page, drain.id)}: ${kindLabels[drain.kind].toLowerCase()}${drain.side ? `, ${sideLabels[drain.side].toLowerCase()}` : ''}`
  return [
    [
      ...tie(`${kind}${size ? `, ${size} F` : ''}`, ORDERS),
      ...tie(`, day ${day}${how} (${dayMonth(since)})`, { to: 'timeline' }),
      ...(capped === null
        ? []
        : tie(`, capped since ${dayMonth(localDate(capped, zone))}: no output expected`, { to: 'timeline' })),
      drain.course && drain.course !== usualCourse[drain.kind] ? `, ordered as ${drain.course}` : '',
      drain.onlyKidney && isUrinary(drain.kind) ? ', only kidney' : '',
      drain.drainage === 'internal-external' ? ', internal and external' : '',
      ...tie(visits.join(''), ORDERS),
      '.',
    ].filter((piece) => piece !== ''),
    orderLine(page, drain, now),
  ]
}

function orderLine(page: PatientPage, { id, plan }: Drain, now: number): Line {
  const { flush } = plan
  const ordered = [
    `Log every ${plan.logEveryHours} h, dressing ${plan.dressingEveryHours} h`,
    plan.exchangeEveryDays ? `, exchange ${plan.exchangeEveryDays} days` : '',
    flush ? `, flush ${flush.volumeMl} mL every ${flush.everyHours} h` : ', no flush',
  ].join('')
  if (!flush) return [...tie(ordered, ORDERS), '.']
  const last = standingReports(page.record.reports)
    .flatMap((report) => (report.flushes ?? []).map((one) => ({ ...one, report: report.id })))
    .filter(({ drain }) => drain === id)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1)
  if (!last) return [...tie(ordered, ORDERS), '; no flush recorded.']
  return [
    ...tie(`${ordered}; last `, ORDERS),
    ...tie(when(last.at, now, page.record.timeZone), { to: 'report', id: last.report }),
    last.ease ? `, ${easeLabels[last.ease]}.` : '.',
  ]
}

/** The calls that count, the latest first: the last one, and the ones before it. */
export function callLines({ callbacks, clinic }: PatientPage, now: number): Line[] {
  const calls = standingCalls(callbacks).toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
  return calls.slice(0, CALLS).map((call, i) =>
    tie(`${i === 0 ? 'Last call' : 'Before'} ${callText(call, now, clinic.timeZone)}`, {
      to: 'call',
      id: call.id,
    }),
  )
}

function callText(
  { at, by, outcome, agreed, note, lookAgainAt }: Callback,
  now: number,
  zone: string,
): string {
  const said = [outcomeLabels[outcome], ...agreed.map((one) => agreedLabels[one])].join(', ').toLowerCase()
  const again = lookAgainAt ? `, look again ${when(lookAgainAt, now, zone)}` : ''
  const letters = [...note]
  const short = letters.length > NOTE ? `${letters.slice(0, NOTE).join('').trimEnd()} …` : note
  return `${when(at, now, zone)}, ${by}: ${said}${again}${note ? `. “${short}”` : '.'}`
}

/** Language and interpreter, whom to ask for, what weighs on the call. */
export function personLines({ record, patient, followUp }: PatientPage): Line[] {
  const { profile, language, interpreter } = patient
  const speaks = language
    ? `Speaks ${language}${interpreter ? '; interpreter needed' : ''}.`
    : interpreter
      ? 'Interpreter needed; language not asked.'
      : 'Language: not asked.'
  const { pain, general = [] } = record.usual ?? {}
  const usual = [
    ...(pain ? [`Usual pain ${pain} of 10.`] : []),
    ...(general.length > 0
      ? [`Usual for them: ${general.map((word) => generalLabels[word].toLowerCase()).join(', ')}.`]
      : []),
  ]
  return [speaks, whomToCall(profile, followUp.reason === 'died'), ...weighsOnCall(profile), ...usual].map(
    (text) => tie(text, PERSON),
  )
}

/** A sheet never tells one thing twice. */
export function once(lines: readonly Line[]): Line[] {
  const seen = new Map(lines.map((line) => [textOf(line), line]))
  return [...seen.values()]
}
