import type { DrainOutput } from './assessment.ts'
import { callNext } from './call-next.ts'
import { weighsOnCall, whomToCall } from './call-person.ts'
import { callQuestions } from './call-questions.ts'
import { standingCalls } from './callback.ts'
import { capital } from './capital.ts'
import { emphasis } from './emphasis.ts'
import { isUrinary } from './kinds.ts'
import {
  agreedLabels,
  easeLabels,
  endLabels,
  findingLabels,
  kindLabels,
  outcomeLabels,
  sideLabels,
} from './labels.ts'
import { clockTime, dayMonth, daysBetween, localDate, shortTimes, weekday, when } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'
import type { Drain } from './record.ts'
import { notSaidAlready } from './said-already.ts'
import { standingReports } from './standing-reports.ts'
import { type FindingCode, urgencyRank } from './words.ts'

export type CallSheet = {
  situation: { lead: string; rest: string; owed: boolean }[]
  background: string[]
  seen: string[]
  ask: string[]
  next: string[]
}

/** Most questions on one sheet: a call is short. */
const MOST_QUESTIONS = 7
/** Days that the sheet looks back on. */
const DAYS = 14

/**
 * What the caller has before them, in the order in which one colleague tells another: situation, background,
 * what the rules see and cannot see, what to ask, what then. Every sentence is a fixed text or the record's own.
 */
export function callSheet(page: PatientPage, now: number): CallSheet {
  const hasDied = page.followUp.reason === 'died'
  // Once follow-up has ended nothing is asked or due, unless a word has come since.
  const isOver = page.followUp.endedAt !== null && page.lateWord === null
  const standing = (isOver ? [] : page.flags)
    .filter(({ state }) => state === 'open' || state === 'owed')
    .toSorted(
      (a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency] || Date.parse(a.actBy) - Date.parse(b.actBy),
    )
  const several = inPlace(page).length > 1
  const clinical = standing.filter(({ nature }) => nature === 'clinical')
  const due = standing.filter(({ nature }) => nature === 'upkeep')
  // A sentence's times are the patient's: where the clinic's clock shows another time they keep their date.
  const { timeZone: theirs } = page.record
  const isSameClock = clockTime(now, theirs) === clockTime(now, page.clinic.timeZone)
  const short = (text: string) => (isSameClock ? shortTimes(text, now, theirs) : text)
  const questions = [...new Set(standing.flatMap(({ code }) => callQuestions[code]))]
  return {
    situation: [
      ...lateWord(page, now),
      ...notSaidAlready(clinical).map(({ finding, state, drain }) => {
        const [lead, rest] = emphasis(finding.says).map(short) as [string, string]
        return {
          lead: several && drain ? `${nameOf(page, drain)}: ${lead}` : lead,
          rest,
          owed: state === 'owed',
        }
      }),
      ...dueLine(due),
    ],
    background: [
      ...inPlace(page).flatMap((drain) => drainLines(page, drain, now)),
      ...personLines(page, now),
    ],
    seen: inPlace(page).flatMap((drain) => seenLines(page, drain, several)),
    ask: hasDied ? askOfDeath(page) : questions.slice(0, MOST_QUESTIONS),
    next: hasDied ? [] : [...noAnswerLine(page), ...callNext(notSaidAlready(standing))],
  }
}

/** What the clinic's rule says is next, after tries that reached nobody. */
const noAnswerLine = ({ nextTry }: PatientPage): string[] =>
  nextTry === null ? [] : [`Not reached so far. ${nextTry.says}`]

/** What is said first: that follow-up has ended, and that a word came all the same. */
function lateWord({ followUp, lateWord, clinic }: PatientPage, now: number): CallSheet['situation'] {
  const { endedAt, reason } = followUp
  const ended =
    endedAt !== null && reason !== null
      ? [
          {
            lead: 'Follow-up has ended',
            rest: ` ${when(endedAt, now, clinic.timeZone)}: ${endLabels[reason].toLowerCase()}.`,
            owed: false,
          },
        ]
      : []
  return [...ended, ...(lateWord ? [{ lead: 'On the list', rest: `: ${lateWord}.`, owed: false }] : [])]
}

/** After a death there is one thing to ask of whoever sent a report. */
const askOfDeath = ({ lateWord }: PatientPage): string[] =>
  lateWord === null ? [] : ['Who sent this report, and when was it written?']

/** What is due, by name: it can wait for the end of the call. */
function dueLine(due: readonly { code: FindingCode }[]): CallSheet['situation'] {
  const names = [...new Set(due.map(({ code }) => findingLabels[code].toLowerCase()))]
  return names.length > 0 ? [{ lead: 'Due', rest: `: ${names.join(', ')}.`, owed: false }] : []
}

/** Drains that have not been taken out. */
export function inPlace({ record }: Pick<PatientPage, 'record'>): Drain[] {
  return record.drains.filter(({ id, removedAt }) => {
    const last = record.staffEvents
      .filter(
        ({ drain, type }) => drain === id && ['removed', 'placed', 'replaced', 'exchanged'].includes(type),
      )
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
      .at(-1)
    return !removedAt && last?.type !== 'removed'
  })
}

const nameOf = ({ labels }: PatientPage, drain: string) => capital(labels[drain]?.label ?? drain)

/** When the tube that lies now came in. */
export function tubeSince({ record }: Pick<PatientPage, 'record'>, drain: Drain): string {
  const tubes = record.staffEvents
    .filter((event) => event.drain === drain.id && ['placed', 'exchanged', 'replaced'].includes(event.type))
    .map(({ at }) => at)
  return [drain.placedAt, ...tubes].toSorted((a, b) => Date.parse(a) - Date.parse(b)).at(-1) ?? drain.placedAt
}

function drainLines(page: PatientPage, drain: Drain, now: number): string[] {
  const { timeZone: zone } = page.record
  const { plan } = drain
  const since = tubeSince(page, drain)
  const day = daysBetween(localDate(since, zone), localDate(now, zone)) + 1
  const size = page.labels[drain.id]?.frenchSize
  const what = [
    `${nameOf(page, drain.id)}: ${kindLabels[drain.kind].toLowerCase()}${drain.side ? `, ${sideLabels[drain.side].toLowerCase()}` : ''}`,
    size ? `${size} F` : null,
    `day ${day} (${dayMonth(localDate(since, zone))})`,
    drain.onlyKidney ? 'only kidney' : null,
    drain.drainage === 'internal-external' ? 'internal and external' : null,
    ...page.visits
      .filter(({ drain: of, state }) => of === drain.id && (state === 'requested' || state === 'booked'))
      .map(({ kind, state, bookedFor }) =>
        state === 'booked' && bookedFor
          ? `${kind} booked ${dayMonth(localDate(bookedFor, zone))}`
          : `${kind} requested`,
      ),
  ]
  return [
    `${what.filter(Boolean).join(', ')}.`,
    ...(plan.flush ? [flushLine(page, drain, plan.flush, now)] : []),
  ]
}

function flushLine(
  page: PatientPage,
  { id }: Drain,
  flush: { volumeMl: number; everyHours: number },
  now: number,
): string {
  const last = standingReports(page.record.reports)
    .flatMap(({ flushes }) => flushes ?? [])
    .filter(({ drain }) => drain === id)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1)
  const ordered = `Flush ${flush.volumeMl} mL every ${flush.everyHours} h`
  if (!last) return `${ordered}; none recorded.`
  return `${ordered}; last ${when(last.at, now, page.record.timeZone)}${last.ease ? `, ${easeLabels[last.ease]}` : ''}.`
}

function personLines({ record, callbacks, patient, clinic, followUp }: PatientPage, now: number): string[] {
  const last = standingCalls(callbacks)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1)
  const call = last
    ? `Last call ${when(last.at, now, clinic.timeZone)}, ${last.by}: ${[outcomeLabels[last.outcome], ...last.agreed.map((one) => agreedLabels[one])].join(', ').toLowerCase()}${last.note ? `. “${last.note}”` : '.'}`
    : 'No call recorded yet.'
  const language = patient.language
    ? `Speaks ${patient.language}${patient.interpreter ? '; interpreter needed' : ''}.`
    : null
  const usual = record.usual?.pain ? `Usual pain ${record.usual.pain} of 10.` : null
  const { profile } = patient
  const hasDied = followUp.reason === 'died'
  return [call, language, whomToCall(profile, hasDied), ...weighsOnCall(profile), usual].filter(
    (text) => text !== null,
  )
}

/** A date that is worked out, with how far it may be off. */
function projected({ date, earliest, latest }: NonNullable<DrainOutput['projection']>): string {
  const range = latest
    ? `${dayMonth(earliest)} to ${dayMonth(latest)}`
    : `${dayMonth(earliest)} or later, open-ended`
  return `If it goes on as it did, the removal threshold is met about ${dayMonth(date)} (95% interval ${range}).`
}

function seenLines(page: PatientPage, drain: Drain, several: boolean): string[] {
  const output = page.assessment.drains.find((one) => one.drain === drain.id)
  const days = (output?.days ?? []).slice(0, -1).slice(-DAYS)
  const complete = days.filter(({ netMl, coverage }) => netMl !== null && coverage >= 0.9).length
  const blank = days
    .filter(({ netMl }) => netMl === null)
    .map(({ date }) => `${weekday(date)} ${dayMonth(date)}`)
  const who = several ? `${nameOf(page, drain.id)}: ` : ''
  const logged =
    days.length > 0
      ? `${who}${complete} of the last ${days.length} days complete`
      : `${who}no complete day yet`
  const missing =
    blank.length === 0
      ? ''
      : blank.length <= 3
        ? `; not logged: ${blank.join(', ')}`
        : `; ${blank.length} not logged`
  return [
    `${logged}${missing}.`,
    ...(output?.baselineFrom === 'ward' ? [`${who}The usual output is the ward’s figure, provisional.`] : []),
    ...(output?.cannotTell ?? []).map((text) => `${who}${text}`),
    ...(output?.projection ? [`${who}${projected(output.projection)}`] : []),
    isUrinary(drain.kind) && !drain.onlyKidney
      ? `${who}The rules cannot see the other kidney, nor any blood test.`
      : `${who}The rules cannot see any blood test or image.`,
  ]
}
