import { requestOf, type SheetRequest } from './call-sheet-ask.ts'
import { callLines, drainLines, once, personLines } from './call-sheet-background.ts'
import { basisOf } from './call-sheet-basis.ts'
import { inPlace, nameOf, tubeSince } from './call-sheet-drains.ts'
import { type Line, type SheetTarget, tie, traced } from './call-sheet-line.ts'
import { seenLines } from './call-sheet-seen.ts'
import { emphasis } from './emphasis.ts'
import type { Flag } from './flag.ts'
import { endLabels, findingLabels } from './labels.ts'
import { clockTime, shortTimes, when } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'
import { notSaidAlready } from './said-already.ts'
import { urgencyRank } from './words.ts'

export { inPlace, tubeSince }

/** One thing that is the matter: what the eye meets first, the rest, and of a flag what it rests on. */
export type SheetMatter = { lead: Line; rest: Line; owed: boolean; flag: string | null; basis: Line[] }
/** `more`: what is there for whoever asks for it. */
export type SheetPart = { lines: Line[]; more: Line[] }
export type CallSheet = {
  situation: SheetMatter[]
  /** `person`: how they are spoken to, whom to ask for, what weighs on the call. */
  background: SheetPart & { person: Line[] }
  seen: SheetPart
  request: SheetRequest
}

/** Drains that are told of in full where none is flagged; the others wait behind a summary. */
const MOST_DRAINS = 2
const none: SheetRequest = { ask: [], askMore: [], advise: [], escalate: [], standard: [] }

/**
 * What the caller has before them, in the order in which one colleague tells another: situation, background,
 * assessment (what the rules see and cannot see), request. Every sentence is a fixed text or the record's own, and
 * every number knows where it comes from.
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
  const lying = inPlace(page)
  const several = lying.length > 1
  const flagged = lying.filter(({ id }) => standing.some(({ drain }) => drain === id))
  const shown = lying.length <= MOST_DRAINS || flagged.length === 0 ? lying.slice(0, MOST_DRAINS) : flagged
  const others = lying.filter((drain) => !shown.includes(drain))
  const [lastCall, ...calls] = callLines(page, now)
  return {
    situation: [
      ...standingOf(page, now),
      ...notSaidAlready(standing.filter(({ nature }) => nature === 'clinical')).map((flag) =>
        matterOf(page, flag, several, now),
      ),
      ...dueMatter(standing.filter(({ nature }) => nature === 'upkeep')),
      ...silence(page, standing.length > 0 || isOver, now),
    ],
    background: {
      lines: [...shown.flatMap((drain) => drainLines(page, drain, now)), ...(lastCall ? [lastCall] : [])],
      person: [...(lastCall ? [] : [['No call recorded yet.']]), ...personLines(page)],
      more: [...calls, ...others.flatMap((drain) => drainLines(page, drain, now))],
    },
    seen: {
      lines: once(shown.flatMap((drain) => seenLines(page, drain, several))),
      more: once(others.flatMap((drain) => seenLines(page, drain, several))),
    },
    request: hasDied ? { ...none, ask: askOfDeath(page) } : requestOf(page, standing),
  }
}

const matter = (lead: string, rest: Line): SheetMatter => ({
  lead: [lead],
  rest,
  owed: false,
  flag: null,
  basis: [],
})

/** One flag, in its finding's own words; several drains are told apart by name. */
function matterOf(page: PatientPage, flag: Flag, several: boolean, now: number): SheetMatter {
  const { finding, drain, id, state } = flag
  // A sentence's times are the patient's: where the clinic's clock shows another time they keep their date.
  const { timeZone: zone } = page.record
  const isSameClock = clockTime(now, zone) === clockTime(now, page.clinic.timeZone)
  const [lead, rest] = emphasis(finding.says)
    .map((text) => (isSameClock ? shortTimes(text, now, zone) : text))
    .map((text) => traced(text, { evidence: finding.evidence, flag: id, zone, now })) as [Line, Line]
  return {
    lead: several && drain ? [`${nameOf(page, drain)}: `, ...lead] : lead,
    rest,
    owed: state === 'owed',
    flag: id,
    basis: basisOf(page, flag),
  }
}

/** What is said first: that follow-up has ended and a word came all the same, that they are in hospital. */
function standingOf(page: PatientPage, now: number): SheetMatter[] {
  const { followUp, lateWord, clinic, admission } = page
  const { endedAt, reason } = followUp
  const person: SheetTarget = { to: 'person' }
  const zone = clinic.timeZone
  return [
    ...(endedAt !== null && reason !== null
      ? [
          matter(
            'Follow-up has ended',
            tie(` ${when(endedAt, now, zone)}: ${endLabels[reason].toLowerCase()}.`, person),
          ),
        ]
      : []),
    ...(lateWord ? [matter('On the list', tie(`: ${lateWord}.`, person))] : []),
    ...(admission
      ? [
          matter(
            'In hospital',
            tie(
              ` since ${when(admission.since, now, zone)}${admission.place ? `, ${admission.place}` : ''}; deadlines rest.`,
              person,
            ),
          ),
        ]
      : []),
  ]
}

/** What is due, by name: it can wait for the end of the call. */
function dueMatter(due: readonly Flag[]): SheetMatter[] {
  const names = [...new Set(due.map(({ code }) => findingLabels[code].toLowerCase()))]
  return names.length > 0 ? [matter('Due', [`: ${names.join(', ')}.`])] : []
}

/** Without a flag it is never said that they are well, but when they were last heard; and always that nothing was heard yet. */
function silence({ record, clinic }: PatientPage, isSaid: boolean, now: number): SheetMatter[] {
  const last = record.reports.toSorted((a, b) => Date.parse(b.receivedAt) - Date.parse(a.receivedAt))[0]
  if (!last)
    return [
      matter(
        'Nothing heard yet',
        tie(`, since enrolment ${when(record.enrolledAt, now, clinic.timeZone)}.`, { to: 'timeline' }),
      ),
    ]
  if (isSaid) return []
  return [
    matter(
      'Nothing flagged',
      tie(`; last heard ${when(last.receivedAt, now, clinic.timeZone)}.`, { to: 'report', id: last.id }),
    ),
  ]
}

/** After a death there is one thing to ask of whoever sent a report. */
const askOfDeath = ({ lateWord, flags }: PatientPage): SheetRequest['ask'] =>
  lateWord === null
    ? []
    : [
        {
          key: 'who-sent',
          code: flags[0]?.code ?? 'log-missed',
          drain: null,
          who: null,
          question: 'Who sent this report, and when was it written?',
          answer: 'words',
        },
      ]
