import { capital } from '@/lib/domain/capital.ts'
import { emphasis } from '@/lib/domain/emphasis.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import { initialsOf } from '@/lib/domain/initials.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { endLabels, findingLabels, reporterLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { clockTime, daysBetween, duration, localDate, shortTimes, when } from '@/lib/domain/local-time.ts'
import type { OnCallState } from '@/lib/domain/on-call-state.ts'
import { notSaidAlready } from '@/lib/domain/said-already.ts'
import type { Hold, RowDrain, WorklistRow } from '@/lib/domain/worklist.ts'

/** The act by of a row in words: the time first, the urgency, how long still or how long over, the patient's hour. */
export type ActByText = {
  time: string
  isNow: boolean
  isOver: boolean
  label: string
  away: string
  theirs: string | null
}

export function actByText(
  row: Pick<WorklistRow, 'urgency' | 'actBy' | 'timeZone'>,
  now: number,
  clinicZone: string,
): ActByText {
  const label = urgencyLabels[row.urgency]
  if (row.actBy === null) return { time: '–', isNow: false, isOver: false, label, away: '', theirs: null }
  const left = Date.parse(row.actBy) - now
  const isOver = left < 0
  const isNow = row.urgency === 'at-once'
  const theirs = when(row.actBy, now, row.timeZone)
  const ours = when(row.actBy, now, clinicZone)
  return {
    time: isNow ? 'now' : ours,
    isNow,
    isOver,
    label,
    away: isOver ? (left > -60_000 ? 'due' : `${duration(left)} over`) : duration(left),
    theirs:
      theirs === ours ? null : isNow ? `their time ${clockTime(now, row.timeZone)}` : `their time ${theirs}`,
  }
}

/** A drain as a row names it: the size and the day since its tube came in, which is day 1. */
export function drainText(
  drain: Pick<RowDrain, 'label' | 'frenchSize' | 'placedAt' | 'capped'>,
  now: number,
  zone: string,
) {
  const day = daysBetween(localDate(drain.placedAt, zone), localDate(now, zone)) + 1
  const size = drain.frenchSize === null ? '' : `${drain.frenchSize} F, `
  const name = capital(drain.label)
  return { name: drain.capped ? `${name}, capped` : name, about: `${size}day ${day}` }
}

export type FlagLine = { id: string; drain: string | null; lead: string; rest: string; owed: boolean }
export type FlagText = { lines: FlagLine[]; others: string[]; due: string[] }

/** Sentences in a row; what else stands is named. */
const MOST_LINES = 2

/**
 * A row's flags: the most pressing in sentences, each with its drain where the patient has several; the others
 * by name; what is merely due apart, in a sentence only where there is nothing else. What `blocked-and-infected` says already is not said again beside it.
 */
export function flagText(
  row: Pick<WorklistRow, 'flags' | 'drains' | 'timeZone'>,
  now: number,
  clinicZone: string,
): FlagText {
  const several = row.drains.length > 1
  const clinical = row.flags.filter(({ nature }) => nature === 'clinical')
  const upkeep = row.flags.filter(({ nature }) => nature === 'upkeep')
  const spoken = clinical.length > 0 ? notSaidAlready(clinical).slice(0, MOST_LINES) : upkeep.slice(0, 1)
  const isSameZone = clockTime(now, row.timeZone) === clockTime(now, clinicZone)
  return {
    lines: spoken.map(({ id, drain, finding, state }) => {
      // Times of a sentence are the patient's: with another clock they keep their date, so that nobody takes them for ours.
      const [lead, rest] = emphasis(finding.says).map((part) =>
        isSameZone ? shortTimes(part, now, row.timeZone) : part,
      ) as [string, string]
      const label = several ? row.drains.find((one) => one.id === drain)?.label : undefined
      return { id, drain: label ? capital(label) : null, lead, rest, owed: state === 'owed' }
    }),
    others: names(clinical.filter((flag) => !spoken.includes(flag))),
    due: names(upkeep.filter((flag) => !spoken.includes(flag))),
  }
}

/** Why a row stands here although nothing was waited for any more; null where that is not so. */
export function lateText({
  lookAgainWhy,
  followUpEnd,
}: Pick<WorklistRow, 'lookAgainWhy' | 'followUpEnd'>): string | null {
  if (lookAgainWhy === null) return null
  const ended = followUpEnd === null ? '' : ` (${endLabels[followUpEnd].toLowerCase()})`
  return `${capital(lookAgainWhy)}${ended}.`
}

/** Since when the patient is in hospital, and where; null where they are not. */
export function admissionText(
  admission: WorklistRow['admission'],
  now: number,
  clinicZone: string,
): string | null {
  if (admission === null) return null
  return `In hospital since ${when(admission.since, now, clinicZone)}${admission.place ? `, ${admission.place}` : ''}.`
}

/** Which of a row's flags open and end again and again; null where none does. */
export function flutterText({ flags }: Pick<WorklistRow, 'flags'>): string | null {
  const fluttering = names(flags.filter(({ flutters }) => flutters))
  return fluttering.length > 0 ? `Flutters, three times or more in 72 h: ${fluttering.join(', ')}` : null
}

const names = (flags: readonly Flag[]): string[] => [
  ...new Set(flags.map(({ code }) => findingLabels[code].toLocaleLowerCase('en'))),
]

/** Who has a row and for how long still; null where nobody has, or no longer. */
export function holdText(
  hold: Hold | null,
  now: number,
  selfId: string,
): { who: string; initials: string; left: string; isOwn: boolean } | null {
  const ms = hold ? Date.parse(hold.until) - now : 0
  if (!hold || ms <= 0) return null
  const isOwn = hold.staffId === selfId
  return { who: isOwn ? 'you' : hold.name, initials: initialsOf(hold.name), left: leftText(ms), isOwn }
}

/** How long a row is still theirs: in minutes, the last ones with their seconds. */
export function leftText(ms: number): string {
  if (ms > 3 * 60_000) return `${Math.ceil(ms / 60_000)} min`
  const seconds = Math.max(0, Math.ceil(ms / 1000))
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')} min`
}

/** How it stands with the person on call for a row. */
export function onCallText(onCall: OnCallState, now: number, clinicZone: string): string {
  const { state, name, at, tries } = onCall
  const time = when(at, now, clinicZone)
  const tried = tries > 1 ? `, ${tries} tries` : ''
  if (state === 'has-it') return `On call: ${name ?? 'somebody'} has it since ${time}`
  if (state === 'told') return `On call: ${name ?? 'somebody'} was told ${time}${tried}, no answer yet`
  if (state === 'nobody') return `On call: nobody could be told, ${time}${tried}`
  return `On call: waits to be told since ${time}${tried}`
}

const words: Readonly<Record<string, string>> = reporterLabels

/** When a patient was last heard, and from whom. */
export function heardText(
  at: Instant | null,
  from: string | null,
  now: number,
  clinicZone: string,
): { time: string; from: string } {
  return at === null
    ? { time: 'not heard', from: '' }
    : { time: when(at, now, clinicZone), from: from === null ? '' : (words[from] ?? from) }
}
