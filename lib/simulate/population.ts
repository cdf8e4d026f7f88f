import type { Drain } from '../domain/record.ts'
import { type DrainKind, isBiliary, isUrinary, usualCourse } from '../domain/words.ts'
import { kindMix, levels } from './parameters.ts'
import type { PlaceInTime } from './place-in-time.ts'
import type { Random } from './random.ts'

/** A drain as it was placed and ordered, and what only the simulator knows of it. */
export type SimulatedDrain = {
  readonly drain: Drain
  readonly ageDays: number
  /** True level at the start, mL/day. */
  readonly levelMlPerDay: number
  readonly halfLifeDays: number | null
  readonly markMl: number
  readonly capacityMl: number
  readonly exchangeHour: number | null
}

/** What a scenario asks for, instead of chance. */
export type Wanted = {
  readonly kind?: DrainKind
  /** Days that the tube had stood at enrolment. */
  readonly ageDays?: number
  readonly levelMlPerDay?: number
  readonly halfLifeDays?: number
  readonly oneDrain?: boolean
}

export function drawDrains(random: Random, time: PlaceInTime, wanted: Wanted): SimulatedDrain[] {
  const drawnKind = random.weighted(kindMix.value)
  const kind = wanted.kind ?? drawnKind
  const drawnAge = usualCourse[kind] === 'steady' ? random.between(1, 45) : random.between(1, 4)
  const age = wanted.ageDays ?? drawnAge
  const drawnTwo = kind === 'nephrostomy' ? random.chance(0.15) : random.chance(0.06)
  const two = drawnTwo && !wanted.oneDrain
  const sides = two
    ? (['left', 'right'] as const)
    : [random.chance(0.5) ? ('left' as const) : ('right' as const)]
  return sides.map((side, i) => ({
    ...drawDrain(random, time, kind, side, i, age, !two),
    ...asWanted(wanted),
  }))
}

const asWanted = ({ levelMlPerDay, halfLifeDays }: Wanted) => ({
  ...(levelMlPerDay === undefined ? {} : { levelMlPerDay }),
  ...(halfLifeDays === undefined ? {} : { halfLifeDays }),
})

function drawDrain(
  random: Random,
  time: PlaceInTime,
  kind: DrainKind,
  side: 'left' | 'right',
  index: number,
  ageDays: number,
  single: boolean,
): SimulatedDrain {
  const level = levels[kind].value
  const halfLife = level.halfLifeDays ? random.between(...level.halfLifeDays) : null
  const levelMlPerDay = Math.min(
    level.highest,
    Math.max(level.lowest, level.medianMlPerDay * Math.exp(random.normal(0, level.logSd))),
  )
  const { markMl, capacityMl } = vessel(random, kind)
  const markKnown = random.chance(0.6)
  const flush = orderedFlush(random, kind)
  const exchangeEveryDays = isUrinary(kind) ? 90 : kind === 'biliary' ? 75 : null
  const exchangeHour =
    exchangeEveryDays === null ? null : (exchangeEveryDays - ageDays) * 24 - random.between(0, 6 * 24)
  const booked = exchangeHour !== null && exchangeHour > 0 && random.chance(0.85)
  const sided = isUrinary(kind) || kind === 'bulb' || kind === 'pleural'
  const wardFigure = random.chance(0.5)
  return {
    ageDays,
    levelMlPerDay,
    halfLifeDays: halfLife,
    markMl,
    capacityMl,
    exchangeHour: booked ? exchangeHour : null,
    drain: {
      id: `d${index + 1}`,
      kind,
      ...(sided ? { side } : {}),
      drainage:
        kind === 'nephroureteral' || (isBiliary(kind) && kind === 'biliary' && random.chance(0.4))
          ? 'internal-external'
          : 'external',
      placedAt: time.iso(-ageDays * 24),
      bagCapacityMl: capacityMl,
      markMl: markKnown ? markMl : null,
      onlyKidney: kind === 'nephrostomy' && single && random.chance(0.05),
      usualMlPerDay: wardFigure
        ? Math.round((levelMlPerDay * Math.exp(random.normal(0, 0.15))) / 10) * 10
        : null,
      exchangeBookedFor: booked && exchangeHour !== null ? time.iso(exchangeHour) : null,
      plan: {
        logEveryHours: kind === 'pleural' ? 48 : kind === 'bulb' ? 12 : 24,
        dressingEveryHours: random.weighted([
          [48, 40],
          [72, 60],
        ]),
        flush,
        exchangeEveryDays,
      },
    },
  }
}

/** Smallest mark and capacity of what it drains into: gcmedica (weak) and nexgenmedical for bags, Baldwin leaflet for bulbs. */
function vessel(random: Random, kind: DrainKind): { markMl: number; capacityMl: number } {
  if (kind === 'bulb') return { markMl: 5, capacityMl: 100 }
  if (kind === 'pleural') return { markMl: 25, capacityMl: 1000 }
  if (kind === 'collection')
    return {
      markMl: random.weighted([
        [5, 65],
        [10, 15],
        [25, 20],
      ]),
      capacityMl: 500,
    }
  return {
    markMl: random.weighted([
      [25, 60],
      [50, 40],
    ]),
    capacityMl: random.weighted([
      [600, 60],
      [750, 20],
      [2000, 20],
    ]),
  }
}

/** 5 to 20 mL once daily (UI Health Care, Denver leaflet), three times daily into some collections (lavascular). */
function orderedFlush(random: Random, kind: DrainKind): { volumeMl: number; everyHours: number } | null {
  if (kind === 'pleural' || kind === 'bulb') return null
  const ordered = kind === 'collection' ? 0.9 : kind === 'nephrostomy' ? 0.5 : 0.7
  if (!random.chance(ordered)) return null
  const volumeMl = random.weighted<number>([
    [5, 25],
    [10, 75],
  ])
  return { volumeMl, everyHours: kind === 'collection' && random.chance(0.3) ? 12 : 24 }
}
