import type { EventWithEnd } from './course-of-events.ts'
import { body, levels } from './parameters.ts'
import type { PlaceInTime } from './place-in-time.ts'
import type { SimulatedDrain } from './population.ts'
import { randomFor } from './random.ts'

/** True flow of one drain, as mL that have come since the start, hour by hour. */
export type Output = {
  /** mL between two hours of the simulation. */
  between(from: number, to: number): number
}

const FADE = 0.4 // correlation of one day's level with the next
const EBB = 12 // hours over which bleeding or a fever dies down

/**
 * Level of this drain × the day × the hour of the day × what the tube lets through. Days are
 * log-normal and correlated (AR(1)); nights are quieter; a dwindling drain halves in its half-life.
 */
export function outputOf(
  seed: number,
  index: number,
  simulated: SimulatedDrain,
  events: readonly EventWithEnd[],
  removedAt: number | null,
  horizonHours: number,
  time: PlaceInTime,
): Output {
  const { dayCv, nightShare } = levels[simulated.drain.kind].value
  const random = randomFor(seed, 'days', index)
  const dry = randomFor(seed, 'dry-days', index)
  const dayFactors: number[] = []
  let deviation = random.normal(0, dayCv)
  for (let day = 0; day <= horizonHours / 24 + 2; day++) {
    deviation = FADE * deviation + random.normal(0, dayCv * Math.sqrt(1 - FADE ** 2))
    const drought = dry.chance(body.dryDay.value) ? dry.between(0.4, 0.7) : 1
    dayFactors.push(Math.exp(deviation - dayCv ** 2 / 2) * (simulated.halfLifeDays === null ? drought : 1))
  }
  const own = events.filter((event) => event.drain === index)
  const firstMidnight = time.localHour(0)
  const night = nightShareOf(nightShare)
  const steps = Math.ceil(horizonHours) + 1
  const total = new Float64Array(steps + 1)
  for (let hour = 0; hour < steps; hour++) {
    let flow = 0
    if (removedAt === null || hour < removedAt) {
      const level =
        simulated.levelMlPerDay *
        (simulated.halfLifeDays === null ? 1 : 0.5 ** (hour / (simulated.halfLifeDays * 24)))
      const clock = (hour + firstMidnight) % 24
      flow = (level / 24) * (dayFactors[Math.floor((hour + firstMidnight) / 24)] ?? 1) * night(clock)
      for (const event of own) flow = passes(flow, event, hour + 0.5)
    }
    total[hour + 1] = (total[hour] ?? 0) + flow
  }
  const at = (hour: number) => {
    const inside = Math.min(steps, Math.max(0, hour))
    const whole = Math.floor(inside)
    const low = total[whole] ?? 0
    return low + ((total[whole + 1] ?? low) - low) * (inside - whole)
  }
  return { between: (from, to) => at(to) - at(from) }
}

/** Factor by hour of the day, 1 on average, with the night (22 to 6) at the given share of the day. */
function nightShareOf(share: number): (clock: number) => number {
  const day = 24 / (16 + 8 * share)
  return (clock) => (clock >= 22 || clock < 6 ? day * share : day)
}

function passes(flow: number, event: EventWithEnd, hour: number): number {
  if (hour < event.onset) return flow
  const ended = event.end !== null && hour >= event.end.at
  switch (event.type) {
    case 'fistula':
      return flow + event.residue / 24
    case 'sudden-obstruction':
    case 'gradual-obstruction': {
      if (ended) return flow
      const fallen = event.fallHours === 0 ? 1 : Math.min(1, (hour - event.onset) / event.fallHours)
      return flow * (1 - fallen * (1 - event.residue))
    }
    case 'drain-out':
      return ended ? flow : 0
    case 'drain-moved':
      return ended ? flow : flow * event.residue
    default:
      return flow
  }
}

/** Whether an event, or its dying down, is still felt. */
export const felt = (event: EventWithEnd, from: number | null, hour: number): boolean =>
  from !== null && hour >= from && (event.end === null || hour < event.end.at + EBB)
