import { capital } from './capital.ts'
import type {
  Handover,
  HandoverAgreed,
  HandoverDue,
  HandoverEntry,
  HandoverSheet,
  HandoverTry,
} from './handover.ts'
import type { Instant } from './instant.ts'
import { agreedLabels, outcomeLabels, spokenLabels, urgencyLabels, visitLabels } from './labels.ts'
import { dayAndTime, duration, fullDate, when } from './local-time.ts'

/** Where and when a sentence is read: the page's own instant, in the clinic's zone. */
export type Read = { asOf: Instant; zone: string }

export const readOf = ({ asOf, clinic }: Pick<HandoverSheet, 'asOf' | 'clinic'>): Read => ({
  asOf,
  zone: clinic.timeZone,
})

const at = (instant: Instant, { asOf, zone }: Read) => when(instant, Date.parse(asOf), zone)
const quoted = (note: string) => (note ? ` “${note}”` : '')

/** Two identifiers and the number to call. */
export const identifiers = ({
  birthDate,
  recordNumber,
  phone,
}: Pick<HandoverEntry, 'birthDate' | 'recordNumber' | 'phone'>): string =>
  `${fullDate(birthDate)} · ${recordNumber} · ${phone ?? 'no number noted'}`

/** By when to act, the patient's own hour beside it where it differs. */
export function byWhen(
  entry: Pick<HandoverEntry, 'urgency' | 'actBy' | 'timeZone'>,
  read: Read,
): { label: string; by: string } {
  const label = urgencyLabels[entry.urgency]
  if (entry.actBy === null) return { label, by: '' }
  const over = Date.parse(read.asOf) - Date.parse(entry.actBy)
  const ours = at(entry.actBy, read)
  const theirs = when(entry.actBy, Date.parse(read.asOf), entry.timeZone)
  return {
    label,
    by: [
      `by ${ours}`,
      over > 0 ? `, ${duration(over)} over` : '',
      theirs === ours ? '' : ` (their time ${theirs})`,
    ].join(''),
  }
}

export function tryText(
  { at: instant, by, direction, outcome, spokenTo, note }: HandoverTry,
  read: Read,
): string {
  const who = spokenTo ? `, ${spokenLabels[spokenTo].toLowerCase()}` : ''
  const what = direction === 'they-called' ? 'they called' : outcomeLabels[outcome].toLowerCase()
  return `${at(instant, read)} ${what}${who}, ${by}.${quoted(note)}`
}

export function agreedText(
  { at: instant, by, agreed, lookAgainAt, note }: HandoverAgreed,
  read: Read,
): string {
  const what = agreed.map((one) => agreedLabels[one].toLowerCase()).join(', ') || 'nothing noted'
  const again = lookAgainAt ? ` Look again ${at(lookAgainAt, read)}.` : ''
  return `${at(instant, read)} ${by}: ${what}.${again}${quoted(note)}`
}

export function dueText({ at: instant, what }: HandoverDue, read: Read): string {
  if (what === 'act-by') return `act by ${at(instant, read)}`
  if (what === 'look-again') return `look again ${at(instant, read)}`
  return `${visitLabels[what].toLowerCase()} booked ${at(instant, read)}`
}

/** What of a row was reported, one sentence a finding; the drain before it where there are several. */
export const findingTexts = ({ findings, lookAgainWhy }: HandoverEntry): string[] => [
  ...(lookAgainWhy ? [`${capital(lookAgainWhy)}.`] : []),
  ...findings.map(
    ({ drain, says, owed }) =>
      `${drain ? `${capital(drain)}: ` : ''}${says}${owed ? ' Over by now, but nobody has spoken to them.' : ''}`,
  ),
]

/** Who answers for a row from now on; null where no name is needed. */
export function answersFor(
  { needs, accepted, newsSince }: HandoverEntry,
  handover: Handover | null,
  read: Read,
): string | null {
  if (accepted)
    return `Accepted by ${accepted.by.name}, ${at(accepted.at, read)}.${newsSince ? ' Something new came since: read it again.' : ''}`
  if (!needs || handover === null) return null
  return `Nobody has accepted it: it stays with ${handover.givenBy.name}.`
}

/** The two signatures, or what is missing of them. */
export function signatures({ givenBy, givenAt, takenBy, takenAt }: Handover, zone: string): [string, string] {
  return [
    `Given by ${givenBy.name}: ${givenAt ? `signed ${dayAndTime(givenAt, zone)}` : 'not signed yet'}`,
    takenBy && takenAt
      ? `Taken by ${takenBy.name}: signed ${dayAndTime(takenAt, zone)}`
      : 'Taken by: nobody has signed yet',
  ]
}

/** What the page covers, and under which rules it was flagged. */
export const spanText = (sheet: HandoverSheet): string =>
  `As of ${dayAndTime(sheet.asOf, sheet.clinic.timeZone)}. Calls since ${at(sheet.from, readOf(sheet))}; due until ${untilText(sheet)}.${sheet.ruleSet ? ` Rule set ${sheet.ruleSet}.` : ''}`

/** Until when things count as due in the next shift. */
export const untilText = (sheet: HandoverSheet): string => at(sheet.until, readOf(sheet))
