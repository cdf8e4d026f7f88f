import { emphasis } from '@/lib/domain/emphasis.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { clockTime, daysBetween, duration, localDate, when } from '@/lib/domain/local-time.ts'
import type { Hold, RowDrain, WorklistRow } from '@/lib/domain/worklist.ts'

/** The act by of a row in words: the time first, the urgency, how long still or how long over, the patient's hour. */
export type ActByText = { time: string; isNow: boolean; isOver: boolean; label: string; away: string; theirs: string | null }

export function actByText(row: Pick<WorklistRow, 'urgency' | 'actBy' | 'timeZone'>, now: number, clinicZone: string): ActByText {
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
    theirs: theirs === ours ? null : isNow ? `their time ${clockTime(now, row.timeZone)}` : `their time ${theirs}`,
  }
}

/** A drain as a row names it: the size and the day since its tube came in, which is day 1. */
export function drainText(drain: Pick<RowDrain, 'label' | 'frenchSize' | 'placedAt' | 'capped'>, now: number, zone: string) {
  const day = daysBetween(localDate(drain.placedAt, zone), localDate(now, zone)) + 1
  const size = drain.frenchSize === null ? '' : `${drain.frenchSize} F, `
  return { name: drain.capped ? `${drain.label}, capped` : drain.label, about: `${size}day ${day}` }
}

export type FlagLine = { id: string; drain: string | null; lead: string; rest: string; owed: boolean }

/** A row's clinical flags as lines, the most pressing first, each with its drain where the patient has several. */
export function flagLines(row: Pick<WorklistRow, 'flags' | 'drains'>): FlagLine[] {
  const several = row.drains.length > 1
  return row.flags
    .filter(({ nature }) => nature === 'clinical')
    .map(({ id, drain, finding, state }) => {
      const [lead, rest] = emphasis(finding.says)
      const label = several ? (row.drains.find((one) => one.id === drain)?.label ?? null) : null
      return { id, drain: label, lead, rest, owed: state === 'owed' }
    })
}

/** What is due in a row beside its clinical flags, as short names. */
export const upkeepNames = (flags: readonly Flag[]): string[] => [
  ...new Set(flags.filter(({ nature }) => nature === 'upkeep').map(({ code }) => findingLabels[code].toLocaleLowerCase('en'))),
]

/** Who has a row and for how long still; null where nobody has, or no longer. */
export function holdText(hold: Hold | null, now: number, selfId: string): { who: string; left: string; isOwn: boolean } | null {
  const ms = hold ? Date.parse(hold.until) - now : 0
  if (!hold || ms <= 0) return null
  const minutes = Math.max(1, Math.ceil(ms / 60_000))
  const isOwn = hold.staffId === selfId
  return { who: isOwn ? 'you' : hold.name, left: `${minutes} min`, isOwn }
}

/** When a patient was last heard, and from whom. */
export function heardText(at: Instant | null, from: string | null, now: number, clinicZone: string): { time: string; from: string } {
  return at === null ? { time: 'not heard', from: '' } : { time: when(at, now, clinicZone), from: from ?? '' }
}
