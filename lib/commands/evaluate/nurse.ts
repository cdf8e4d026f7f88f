import type { Truth } from '../../simulate/index.ts'
import type { PlaceInTime } from '../../simulate/place-in-time.ts'
import type { KeptFlag } from '../../store/flags.ts'

/** How the simulated nurse works; printed with the figures. Hours are clinic time; all numbers are assumed. */
export const policy = {
  atOnceAfterMinutes: 5,
  withinHourAfterMinutes: 20,
  rounds: [9, 13],
  laterAt: 10,
  upkeepAt: 14,
  reached: 0.75,
  retryMinutes: { 'at-once': 10, 'within-1h': 30, 'within-24h': 180, 'within-3d': 24 * 60 },
  attemptsUntilHelper: 3,
  minutesReached: 9,
  minutesNotReached: 2,
  lookAgainAt: 9,
} as const

export const policyInWords = [
  'At-once flags are called after 5 minutes and within-1h flags after 20, at any hour; within-24h flags in the next round (9:00, 13:00);',
  'clinical within-3d flags at the next 10:00; upkeep first reminds the patient and is called at the next 14:00 once it is within-24h.',
  'A call reaches somebody in 75% (9 minutes with its note, else 2); the third attempt reaches a helper. One call deals with all that stands:',
  'it closes every flag, finds what can be seen or felt, and for a missed log takes the reading by telephone.',
  'A flag of within-1h or sooner that still holds is looked at again at 9:00 the next day.',
].join(' ')

const HOUR_MS = 3_600_000

export type ClinicClock = { next(localHour: number, after: number): number; localDay(at: number): number }

/** Clinic time over the simulated stretch, in ms since the epoch. */
export function clinicClock(time: PlaceInTime, startMs: number, days: number): ClinicClock {
  const tables = new Map<number, number[]>()
  const table = (localHour: number) => {
    let hours = tables.get(localHour)
    if (!hours) {
      hours = time.daily(localHour, 0, (days + 3) * 24).map((hour) => Math.round(startMs + hour * HOUR_MS))
      tables.set(localHour, hours)
    }
    return hours
  }
  const firstHour = time.localHour(0)
  return {
    next: (localHour, after) => table(localHour).find((at) => at > after) ?? Number.POSITIVE_INFINITY,
    localDay: (at) => Math.floor(((at - startMs) / HOUR_MS + firstHour) / 24),
  }
}

/** When a standing flag is called about for the first time; infinite: only the reminder goes out. */
export function callTime(flag: KeptFlag, clock: ClinicClock): number {
  const from = Math.max(Date.parse(flag.openedAt), Date.parse(flag.since))
  if (flag.urgency === 'at-once') return from + policy.atOnceAfterMinutes * 60_000
  if (flag.urgency === 'within-1h') return from + policy.withinHourAfterMinutes * 60_000
  if (flag.nature === 'upkeep')
    return flag.urgency === 'within-24h' ? clock.next(policy.upkeepAt, from) : Number.POSITIVE_INFINITY
  if (flag.urgency === 'within-3d') return clock.next(policy.laterAt, from)
  return Math.min(...policy.rounds.map((hour) => clock.next(hour, from)))
}

/** What a conversation brings to light: what can be seen or felt, a slow fall and a recovery only if they were asked about. */
export function learns(event: Truth, flags: readonly KeptFlag[], at: number): boolean {
  if (Date.parse(event.onset) > at || (event.end !== null && Date.parse(event.end.calledAt) <= at))
    return false
  const asked = (...codes: KeptFlag['code'][]) =>
    flags.some((flag) => codes.includes(flag.code) && (flag.drain === null || flag.drain === event.drain))
  if (event.type === 'recovery') return asked('removal-check')
  if (event.type === 'gradual-obstruction')
    return (
      asked('output-decline', 'output-stopped') ||
      (event.halfFrom !== null && Date.parse(event.halfFrom) <= at)
    )
  return true
}
