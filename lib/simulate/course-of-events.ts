import type { StaffEvent } from '../domain/record.ts'
import type { DrainKind } from '../domain/words.ts'
import { makeEvent } from './draw-events.ts'
import type { PlaceInTime } from './place-in-time.ts'
import type { SimulatedDrain } from './population.ts'
import { randomFor } from './random.ts'
import { type EventEnd, endOf, type Found, type TrueEvent } from './truth.ts'

export type EventWithEnd = TrueEvent & { readonly end: EventEnd | null }

/** What happened in one simulated run, once it is known who called when. */
export type CourseOfEvents = {
  readonly events: readonly EventWithEnd[]
  readonly staffEvents: readonly (StaffEvent & { hour: number })[]
  /** Hour of removal per drain; null: still in at the end. */
  readonly removedAt: readonly (number | null)[]
}

/** Below this a resolving drain has done its work, mL/day (pleural: 50 mL in each drainage of two days). */
const DONE_ML_PER_DAY: Partial<Record<DrainKind, number>> = { collection: 9, bulb: 27, pleural: 22 }
const QUIET_HOURS_BETWEEN_EVENTS = 24

/** Lets the drawn events happen one at a time on each tube, adds recoveries, and the help that ends them. */
export function courseOfEvents(
  seed: number,
  drains: readonly SimulatedDrain[],
  drawn: readonly TrueEvent[],
  found: readonly Found[],
  horizonHours: number,
  time: PlaceInTime,
): CourseOfEvents {
  const events: EventWithEnd[] = []
  const staffEvents: (StaffEvent & { hour: number })[] = []
  const removedAt = drains.map(() => null as number | null)
  const freeFrom = drains.map(() => Number.NEGATIVE_INFINITY)
  const recoveries = drains.flatMap((simulated, index) =>
    recoveryOf(seed, drains, simulated, index, horizonHours),
  )
  const candidates = [...drawn, ...recoveries].sort((a, b) => a.onset - b.onset)
  for (const event of candidates) {
    const end = endOf(event, found)
    if (event.drain === null) {
      events.push({ ...event, end })
      continue
    }
    const removed = removedAt[event.drain] ?? Number.POSITIVE_INFINITY
    const fistula = events.some((other) => other.type === 'fistula' && other.drain === event.drain)
    if (event.onset >= removed || (event.type === 'recovery' && fistula)) continue
    if (event.type === 'recovery') {
      events.push({ ...event, end })
      if (end) removedAt[event.drain] = end.at
    } else {
      if (event.onset < (freeFrom[event.drain] ?? 0)) continue
      events.push({ ...event, end })
      freeFrom[event.drain] =
        event.type === 'fistula' || !end ? Number.POSITIVE_INFINITY : end.at + QUIET_HOURS_BETWEEN_EVENTS
    }
    const help = end && end.at < horizonHours ? helpFor(event, seed) : null
    const drain = drains[event.drain]
    if (help && end && drain)
      staffEvents.push({ at: time.iso(end.at), drain: drain.drain.id, type: help, hour: end.at })
  }
  drains.forEach((simulated, index) => {
    const hour = simulated.exchangeHour
    const early = staffEvents.some(
      (event) =>
        event.drain === simulated.drain.id && event.type !== 'position-checked' && event.hour < (hour ?? 0),
    )
    if (
      hour !== null &&
      hour < horizonHours &&
      hour < (removedAt[index] ?? Number.POSITIVE_INFINITY) &&
      !early
    )
      staffEvents.push({ at: time.iso(hour), drain: simulated.drain.id, type: 'exchanged', hour })
  })
  const cut = removedAt.map((hour) => (hour !== null && hour < horizonHours ? hour : null))
  return { events, staffEvents: staffEvents.sort((a, b) => a.hour - b.hour), removedAt: cut }
}

function helpFor(event: TrueEvent, seed: number): StaffEvent['type'] | null {
  switch (event.type) {
    case 'sudden-obstruction':
    case 'gradual-obstruction':
      return 'exchanged'
    case 'drain-out':
      return 'replaced'
    case 'drain-moved':
      return randomFor(seed, 'help', event.type, event.drain ?? 0).chance(0.6)
        ? 'exchanged'
        : 'position-checked'
    case 'recovery':
      return 'removed'
    default:
      return null
  }
}

function recoveryOf(
  seed: number,
  drains: readonly SimulatedDrain[],
  simulated: SimulatedDrain,
  index: number,
  horizonHours: number,
): TrueEvent[] {
  const threshold = DONE_ML_PER_DAY[simulated.drain.kind]
  if (threshold === undefined || simulated.halfLifeDays === null) return []
  const onset = Math.max(0, Math.log2(simulated.levelMlPerDay / threshold) * simulated.halfLifeDays * 24)
  if (onset >= horizonHours) return []
  return [
    makeEvent(
      { type: 'recovery', drain: index, onsetHour: onset },
      drains,
      randomFor(seed, 'event', 'recovery', index),
    ),
  ]
}
