import { dayAndTime, duration } from '@/lib/domain/local-time.ts'
import type { DueInquiry, ShownEvent } from '@/lib/domain/outcomes-page.ts'
import type { EventFileOutcome } from '@/lib/domain/outside-event-file.ts'

const count = (n: number, one: string) => `${n.toLocaleString('en')} ${one}${n === 1 ? '' : 's'}`

/** How long it has been due. */
export function dueText({ since }: Pick<DueInquiry, 'since'>, asOf: string): string {
  const days = Math.floor((Date.parse(asOf) - Date.parse(since)) / 86_400_000)
  return days < 1 ? 'today' : `for ${count(days, 'day')}`
}

/** How an event stands to the flags before it, and to silence. */
export function matchText({ match, found }: Pick<ShownEvent, 'match' | 'found'>): string {
  if (!match) return 'not told'
  const hours = (value: number) => duration(value * 3_600_000)
  const silence =
    match.hoursSinceHeard === null
      ? 'never heard before it'
      : `last heard ${hours(match.hoursSinceHeard)} before`
  return found && match.hoursAhead !== null
    ? `${found}, ${hours(match.hoursAhead)} ahead; ${silence}`
    : `missed: no flag that answers it in the 7 days before; ${silence}`
}

export function fileText(
  { dryRun, lines, events, patients, ends, repeated, takenAt }: EventFileOutcome,
  zone: string,
): string {
  if (takenAt !== null) return `This file was taken in ${dayAndTime(takenAt, zone)}: it adds nothing.`
  const known = repeated > 0 ? `; ${repeated} on record already` : ''
  const what = `${count(events, 'event')} of ${count(patients, 'patient')}`
  const deaths =
    ends === 0
      ? ''
      : dryRun
        ? ` Taken in, it ends follow-up of ${count(ends, 'patient')} who died. ${afterDeath}`
        : ` Follow-up of ${count(ends, 'patient')} who died has ended.`
  return `${dryRun ? `${count(lines, 'line')}: ${what} new${known}.` : `Taken in: ${what}${known}.`}${deaths}`
}

/** What follows from a death that is recorded of somebody in follow-up. */
export const afterDeath =
  'Every message stops at once. To undo this takes two people: one who asks, another who confirms.'
