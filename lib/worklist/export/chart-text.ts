import { weighsOnCall } from '../../domain/call-person.ts'
import { cappedSince, inPlace, tubeSince } from '../../domain/call-sheet-drains.ts'
import { standingCalls } from '../../domain/callback.ts'
import { capital } from '../../domain/capital.ts'
import { isComplete } from '../../domain/day-limit.ts'
import { usualCourse } from '../../domain/kinds.ts'
import {
  agreedLabels,
  confidenceLabels,
  courseLabels,
  endLabels,
  eventLabels,
  findingLabels,
  kindLabels,
  outcomeLabels,
  reporterLabels,
  sideLabels,
  spokenLabels,
  thresholdLabels,
  urgencyLabels,
  vesselLabels,
  visitStateLabels,
} from '../../domain/labels.ts'
import { dayAndTime, dayMonth, daysBetween, fullDate, localDate, weekday } from '../../domain/local-time.ts'
import type { PatientPage } from '../../domain/patient-page.ts'
import type { Drain } from '../../domain/record.ts'
import { urgencyRank } from '../../domain/words.ts'
import type { Line } from '../print/lines.ts'
import type { Section } from './fit.ts'

const IN = 10
/** So much of a text that somebody wrote; the rest is on the screen. */
const MOST_LETTERS = 300
/** Days that are looked back on for what is not known. */
const DAYS = 14

const under = (text: string, bold = false): Line => ({ text, indent: IN, bold })
const titled = (text: string): Line => ({ text, bold: true, above: 2 })
const clipped = (text: string) =>
  [...text].length > MOST_LETTERS ? `${[...text].slice(0, MOST_LETTERS).join('')}… (shortened)` : text
const volume = (mL: number) => `${Math.round(mL * 10) / 10} mL`
const nameOf = (page: PatientPage, drain: string) => capital(page.labels[drain]?.label ?? drain)

/** A time of the clinic, the patient's beside it where it differs. */
function time({ clinic, record }: PatientPage, instant: string): string {
  const ours = dayAndTime(instant, clinic.timeZone)
  const theirs = dayAndTime(instant, record.timeZone)
  return ours === theirs ? ours : `${ours} (their time ${theirs})`
}

/** Who it is, by what a chart is found. */
export const headOf = ({ patient, clinic, record, assessment }: PatientPage): Line[] => [
  { text: patient.name, size: 15, bold: true },
  {
    text: `Born ${fullDate(patient.birthDate)} · record number ${patient.recordNumber} · ${patient.phone ?? 'no number noted'}`,
    bold: true,
  },
  {
    text: `${clinic.name} · ${
      clinic.timeZone === record.timeZone
        ? `times of ${clinic.timeZone}`
        : `times of ${clinic.timeZone}; days, and times within findings, are the patient’s (${record.timeZone})`
    } · rule set ${assessment.ruleSet}`,
  },
  ...(clinic.demo ? [{ text: 'Demo scenario: every person and every report here is invented.' }] : []),
]

/** What the first page says, part by part. */
export const sectionsOf = (page: PatientPage): Section[] => [
  { title: 'Situation', items: situation(page).map((text) => [under(text)]), least: 3 },
  { title: 'Findings', items: findings(page), least: 1 },
  { title: 'Drains and orders', items: drains(page), least: 1 },
  { title: 'Calls and notes', items: calls(page), least: 1 },
]

const standing = ({ flags }: PatientPage) =>
  flags
    .filter(({ state }) => state === 'open' || state === 'owed')
    .toSorted(
      (a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency] || Date.parse(a.actBy) - Date.parse(b.actBy),
    )

function situation(page: PatientPage): string[] {
  const { patient, followUp, admission, record, reports } = page
  const [first, ...others] = standing(page)
  const last = record.reports.toSorted((a, b) => Date.parse(a.receivedAt) - Date.parse(b.receivedAt)).at(-1)
  const from = last ? reports[last.id]?.reporter : null
  return [
    first
      ? `${others.length + 1} flagged; the most pressing: ${urgencyLabels[first.urgency].toLowerCase()}, by ${time(page, first.actBy)}.`
      : 'Nothing flagged. That is no word on how the patient is.',
    last
      ? `Last heard ${time(page, last.receivedAt)}${from ? ` (${reporterLabels[from]})` : ''}.`
      : 'Not heard: no report so far.',
    ...(followUp.endedAt && followUp.reason
      ? [`Follow-up ended ${time(page, followUp.endedAt)}: ${endLabels[followUp.reason].toLowerCase()}.`]
      : []),
    ...(admission
      ? [`In hospital since ${time(page, admission.since)}${admission.place ? `, ${admission.place}` : ''}.`]
      : []),
    ...inPlace(page).flatMap((drain) => unknowns(page, drain)),
    ...(patient.language
      ? [`Speaks ${patient.language}${patient.interpreter ? '; interpreter needed' : ''}.`]
      : []),
    ...weighsOnCall(patient.profile),
    ...(record.usual?.pain ? [`Usual pain ${record.usual.pain} of 10.`] : []),
  ].map(clipped)
}

/** What cannot be told of a drain: days of which nothing is known, a usual output that is not known. */
function unknowns(page: PatientPage, drain: Drain): string[] {
  const { id } = drain
  const capped = cappedSince(page, drain)
  const until = capped === null ? null : localDate(capped, page.record.timeZone)
  const output = page.assessment.drains.find(({ drain }) => drain === id)
  const blank = (output?.days ?? [])
    .slice(0, -1)
    .slice(-DAYS)
    .filter(({ netMl, date }) => netMl === null && (until === null || date < until))
    .map(({ date }) => `${weekday(date)} ${dayMonth(date)}`)
  return [
    ...(output === undefined || output.days.length === 0 ? ['no output is known'] : []),
    ...(blank.length > 0 ? [`no output known in the last ${DAYS} days: ${blank.join(', ')}`] : []),
    ...(output?.cannotTell ?? []),
  ].map((text) => `${nameOf(page, id)}: ${text}${text.endsWith('.') ? '' : '.'}`)
}

const findings = (page: PatientPage): Line[][] => {
  const items = standing(page).map(({ code, drain, urgency, actBy, since, state, finding }): Line[] => {
    const { name, value, unit, source, confidence } = finding.threshold
    return [
      titled(
        [
          `${urgencyLabels[urgency]}, by ${time(page, actBy)}`,
          findingLabels[code],
          drain ? nameOf(page, drain) : null,
        ]
          .filter(Boolean)
          .join(' · '),
      ),
      under(
        `${clipped(finding.says)} Since ${time(page, since)}.${state === 'owed' ? ' Over by now, but nobody has spoken to them.' : ''}`,
      ),
      under(
        clipped(
          `Threshold ${name} ${value}${unit ? ` ${unit}` : ''} (${confidenceLabels[confidence]}: ${source.replace(/\.$/, '')})`,
        ),
      ),
    ]
  })
  return items.length > 0 ? items : [[under('None stands.')]]
}

function drains(page: PatientPage): Line[][] {
  const lying = inPlace(page)
  const gone = page.record.drains.filter((drain) => !lying.includes(drain))
  const items = [
    ...lying.map((drain) => drainLines(page, drain)),
    ...gone.map((drain): Line[] => [
      under(`Not in place any more: ${nameOf(page, drain.id)}, ${kindLabels[drain.kind].toLowerCase()}.`),
    ]),
  ]
  return items.length > 0 ? items : [[under('None.')]]
}

function drainLines(page: PatientPage, drain: Drain): Line[] {
  const { timeZone: zone } = page.record
  const since = localDate(tubeSince(page, drain), zone)
  const size = page.labels[drain.id]?.frenchSize
  const capped = cappedSince(page, drain)
  return [
    titled(
      [
        nameOf(page, drain.id),
        `${kindLabels[drain.kind].toLowerCase()}${drain.side ? `, ${sideLabels[drain.side].toLowerCase()}` : ''}`,
        size ? `${size} F` : null,
        `since ${fullDate(since)}, day ${daysBetween(since, localDate(page.asOf, zone)) + 1}`,
        capped ? `capped since ${time(page, capped)}, no output expected` : null,
        drain.onlyKidney ? 'only kidney' : null,
        drain.drainage === 'internal-external' ? 'internal and external' : null,
      ]
        .filter(Boolean)
        .join(' · '),
    ),
    under(clipped(`${courseLabels[drain.course ?? usualCourse[drain.kind]]}. ${outputText(page, drain)}`)),
    under(clipped(ordersText(page, drain))),
  ]
}

function outputText(page: PatientPage, { id }: Drain): string {
  const output = page.assessment.drains.find(({ drain }) => drain === id)
  const last = output?.days.findLast(
    ({ netMl, coverage }) => netMl !== null && isComplete(coverage, page.limits),
  )
  const usual =
    output?.baselineMlPerDay == null
      ? 'Usual output not known yet.'
      : `Usual output ${volume(output.baselineMlPerDay)} a day${output.baselineFrom === 'ward' ? ', the ward’s figure, provisional' : ''}.`
  if (!last || last.netMl === null) return `${usual} No complete day yet.`
  return `${usual} Last complete day ${weekday(last.date)} ${dayMonth(last.date)}: net ${last.atLeast ? 'at least ' : ''}${volume(last.netMl)}.`
}

function ordersText(page: PatientPage, { id, plan, bagCapacityMl }: Drain): string {
  const [now] = page.orders[id] ?? []
  const events = page.record.staffEvents.filter(({ drain, type }) => drain === id && type !== 'flag-closed')
  const last = events.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1)
  const visits = page.visits.filter(
    ({ drain, state }) => drain === id && (state === 'requested' || state === 'booked'),
  )
  const parts = [
    `log every ${plan.logEveryHours} h`,
    `dressing every ${plan.dressingEveryHours} h${now?.dressingType ? ` (${now.dressingType})` : ''}`,
    plan.flush ? `flush ${plan.flush.volumeMl} mL every ${plan.flush.everyHours} h` : 'no flush',
    plan.exchangeEveryDays ? `exchange every ${plan.exchangeEveryDays} days` : null,
    now?.vessel
      ? `${vesselLabels[now.vessel].toLowerCase()}${bagCapacityMl ? ` of ${bagCapacityMl} mL` : ''}`
      : bagCapacityMl
        ? `vessel of ${bagCapacityMl} mL`
        : null,
    ...(now?.overrides ?? []).map(
      ({ name, value, why }) => `own threshold: ${thresholdLabels[name].toLowerCase()} ${value} (${why})`,
    ),
    now?.removalPlan ? `removal: ${now.removalPlan}` : null,
  ]
  const done = last ? ` Last event: ${eventLabels[last.type].toLowerCase()} ${time(page, last.at)}.` : ''
  const ahead = visits
    .map(({ kind, state, bookedFor }) =>
      bookedFor && state === 'booked'
        ? ` ${capital(kind)} booked for ${time(page, bookedFor)}.`
        : ` ${capital(kind)} ${visitStateLabels[state]}.`,
    )
    .join('')
  return `Ordered: ${parts.filter(Boolean).join('; ')}.${done}${ahead}`
}

/** Calls and notes, the latest first. */
function calls(page: PatientPage): Line[][] {
  const said = standingCalls(page.callbacks).map((call) => {
    const { at, by, direction, outcome, spokenTo, agreed, lookAgainAt, note } = call
    const what = direction === 'they-called' ? 'they called' : outcomeLabels[outcome].toLowerCase()
    const who = spokenTo ? `, ${spokenLabels[spokenTo].toLowerCase()}` : ''
    const then = [
      ...agreed.map((one) => agreedLabels[one].toLowerCase()),
      ...(lookAgainAt ? [`look again ${time(page, lookAgainAt)}`] : []),
    ].join(', ')
    return { at, text: `${by}: ${what}${who}${then ? `; ${then}` : ''}.${note ? ` “${note}”` : ''}` }
  })
  const written = page.notes
    .filter(({ undoneAt }) => undoneAt === null)
    .map(({ at, by, text }) => ({ at, text: `${by}, note: “${text}”` }))
  const items = [...said, ...written]
    .toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
    .map(({ at, text }): Line[] => [under(clipped(`${time(page, at)} · ${text}`))])
  return items.length > 0 ? items : [[under('None recorded.')]]
}
