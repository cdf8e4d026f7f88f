import type { Flag, FlagStep } from '@/lib/domain/flag.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { dayAndTime, localDate, localParts } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Urgency } from '@/lib/domain/words.ts'

/** A time in which a flag stood, in the patient's own days; until now while it stands. */
export type FlagSpan = {
  from: { date: string; part: number }
  until: { date: string; part: number }
  stands: boolean
  urgency: Urgency
  isUpkeep: boolean
  lane: number
  name: string
  says: string
}

/**
 * Flags from their opening to their end, one that came back once for each time that it stood: clinical ones in as many
 * lanes as overlap, upkeep in one lane below them, since what is due says little more by being told apart.
 */
export function flagSpans({
  asOf,
  flags,
  steps,
  record: { timeZone: zone },
}: Pick<PatientPage, 'asOf' | 'flags' | 'steps' | 'record'>): FlagSpan[] {
  const place = (at: string) => {
    const { hour, minute } = localParts(at, zone)
    return { date: localDate(at, zone), part: (hour * 60 + minute) / 1440 }
  }
  const stepsOf = new Map<string, FlagStep[]>()
  for (const step of steps) {
    const own = stepsOf.get(step.flagId)
    if (own) own.push(step)
    else stepsOf.set(step.flagId, [step])
  }
  const ends: number[] = []
  const laneFrom = (from: string, end: string) => {
    const free = ends.findIndex((before) => before < Date.parse(from))
    const lane = free < 0 ? ends.length : free
    ends[lane] = Date.parse(end)
    return lane
  }
  const spans = flags
    .flatMap((flag) => timesOf(flag, stepsOf.get(flag.id) ?? []).map((time) => ({ flag, ...time })))
    .map((one) => ({ ...one, end: one.until ?? asOf }))
    .toSorted((a, b) => Date.parse(a.from) - Date.parse(b.from) || Date.parse(b.end) - Date.parse(a.end))
    .map(({ flag, from, until, stands, end }) => {
      const isUpkeep = flag.nature === 'upkeep'
      const name = `${findingLabels[flag.code]}, ${urgencyLabels[flag.urgency].toLowerCase()}`
      return {
        from: place(from),
        until: place(end),
        stands,
        urgency: flag.urgency,
        isUpkeep,
        lane: isUpkeep ? 0 : laneFrom(from, end),
        name,
        says: `${name}: ${dayAndTime(from, zone)} to ${until ? dayAndTime(until, zone) : stands ? 'now' : 'an end that was not recorded'}`,
      }
    })
  return spans.map((span) => (span.isUpkeep ? { ...span, lane: ends.length } : span))
}

/** `until` null: it stands, or nobody recorded its end. */
type Time = { from: Instant; until: Instant | null; stands: boolean }

/**
 * The times in which a flag stood, by its steps; what was taken back or corrected counts as if it had not been. Where the first step
 * that is here is a return, how it stood before lies farther back than the page reaches.
 */
function timesOf(flag: Flag, steps: readonly FlagStep[]): Time[] {
  const isStanding = flag.state === 'open' || flag.state === 'owed'
  const from = steps[0]?.kind === 'returned' ? steps[0].at : flag.openedAt
  const times: { from: Instant; until: Instant | null }[] = [{ from, until: null }]
  let last = times[0] as (typeof times)[number]
  for (const [i, { kind, at }] of steps.entries()) {
    if (kind === 'closed' || kind === 'ended') last.until = at
    else if (last.until !== null && kind === 'returned') {
      last = { from: at, until: null }
      times.push(last)
    } else if (last.until !== null && (kind === 'undone' || kind === 'corrected')) {
      // Its end no longer holds where it stands after that: the next word of it is another end, or there is none.
      const next = steps.slice(i + 1).find((one) => ['closed', 'ended', 'returned'].includes(one.kind))
      if (next ? next.kind !== 'returned' : isStanding) last.until = null
    }
  }
  if (isStanding) last.until = null
  // One that had opened by an event that was taken back ends with that step.
  else last.until ??= flag.closedAt ?? steps.findLast(({ kind }) => kind === 'undone')?.at ?? null
  return times.map((time) => ({ ...time, stands: isStanding && time === last }))
}
