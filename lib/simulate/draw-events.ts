import { type DrainKind, isBiliary, isUrinary } from '../domain/words.ts'
import { hoursToEvent } from './hazard.ts'
import type { Hazard, Parameter } from './parameter.ts'
import { events as facts, fixHours, hazards, ownCall, visitDays } from './parameters.ts'
import type { SimulatedDrain } from './population.ts'
import { type Random, randomFor } from './random.ts'
import type { TrueEvent, TrueEventType } from './truth.ts'

/** An event that a scenario asks for, instead of chance. */
export type PlannedEvent = {
  type: TrueEventType
  drain?: number
  onsetHour: number
  fever?: boolean
  feverAfterHours?: number
  leak?: boolean
  /** The patient sees it and says so, whatever chance says. */
  noticed?: boolean
  fallDays?: number
  /** Hours from onset to the patient’s own call; null: nobody calls, and no visit finds it. */
  calledAfterHours?: number | null
  days?: number
}

type Group = 'urinary' | 'biliary' | 'other'
const groupOf = (kind: DrainKind): Group =>
  isUrinary(kind) ? 'urinary' : isBiliary(kind) ? 'biliary' : 'other'

/** First events of each hazard, for a tube of that age; those beyond the horizon are left out. */
export function drawEvents(
  seed: number,
  drains: readonly SimulatedDrain[],
  horizonHours: number,
): TrueEvent[] {
  const drawn = drains.flatMap((simulated, index) => {
    const group = groupOf(simulated.drain.kind)
    const at = (name: string, hazard: Parameter<Hazard>) =>
      hoursToEvent(hazard.value, simulated.ageDays, randomFor(seed, 'hazard', name, index).uniform())
    const random = randomFor(seed, 'event-types', index)
    const moved = random.chance(facts.movedShare.value)
    const gradual = random.chance(facts.gradualShare.value)
    const planned: PlannedEvent[] = [
      { type: moved ? 'drain-moved' : 'drain-out', onsetHour: at('dislodged', hazards.dislodged[group]) },
      {
        type: gradual ? 'gradual-obstruction' : 'sudden-obstruction',
        onsetHour: at('blocked', hazards.blocked[group]),
      },
      { type: 'infection', onsetHour: at('infected', hazards.infected[group]) },
      { type: 'bleeding', onsetHour: at('bleeding', hazards.bleeding[group]) },
      ...(simulated.drain.kind === 'collection'
        ? [{ type: 'fistula' as const, onsetHour: at('fistula', hazards.fistula) }]
        : []),
    ]
    return planned.map((plan) => ({ ...plan, drain: index }))
  })
  drawn.push({
    type: 'silence',
    drain: 0,
    onsetHour: hoursToEvent(hazards.silence.value, 0, randomFor(seed, 'hazard', 'silence').uniform()),
  })
  return drawn
    .filter((plan) => plan.onsetHour < horizonHours)
    .map((plan) => makeEvent(plan, drains, randomFor(seed, 'event', plan.type, plan.drain)))
    .sort((a, b) => a.onset - b.onset)
}

/** Gives an event its particulars: how far it falls, whether fever, leak or pain follow, when somebody would call. */
export function makeEvent(plan: PlannedEvent, drains: readonly SimulatedDrain[], random: Random): TrueEvent {
  const { type, onsetHour: onset } = plan
  const drain = type === 'silence' ? null : (plan.drain ?? 0)
  const kind = drains[plan.drain ?? 0]?.drain.kind
  const gradual = type === 'gradual-obstruction'
  const blocked = gradual || type === 'sudden-obstruction'
  const fallHours = gradual ? (plan.fallDays ?? random.between(...facts.fallDays.value)) * 24 : 0
  const residue =
    type === 'fistula'
      ? random.between(...facts.fistulaMlPerDay.value)
      : type === 'drain-moved'
        ? random.between(...facts.movedResidue.value)
        : gradual
          ? random.between(...facts.gradualResidue.value)
          : random.between(...facts.suddenResidue.value)
  const halfFrom = gradual
    ? onset + (fallHours * 0.5) / (1 - residue)
    : blocked || type === 'drain-out'
      ? onset
      : null
  const feltFrom = halfFrom ?? onset
  const mayInfect = blocked && kind !== undefined && groupOf(kind) !== 'other'
  const infected = random.chance(facts.infectedWhenBlocked.value)
  const drawnDelay = random.between(...facts.feverAfterBlockHours.value)
  const feverDelay = plan.feverAfterHours ?? drawnDelay
  const fever = type === 'infection' || (mayInfect && (plan.fever ?? infected))
  const drawnLeak = random.chance(facts.leakWhenBlocked.value)
  const leaks = plan.leak ?? drawnLeak
  const hurts = random.chance(facts.painWhenBlocked.value)
  return {
    type,
    drain,
    onset,
    halfFrom,
    fallHours,
    residue,
    feverFrom: fever ? (blocked ? feltFrom + feverDelay : onset) : null,
    feverPeakC: random.between(...facts.measuresFeverC.value),
    leakFrom: (blocked || type === 'drain-moved') && leaks ? feltFrom + random.between(4, 30) : null,
    painFrom: blocked && hurts ? feltFrom + random.between(4, 24) : null,
    painAdd: Math.round(random.between(2, 6)),
    noticed: random.chance(plan.noticed ? 1 : noticing(type)),
    ...whenFound(plan, feltFrom, random),
  }
}

function noticing(type: TrueEventType): number {
  if (type === 'drain-out') return facts.saysOut.value
  if (type === 'drain-moved') return facts.saysMoved.value
  return type === 'fistula' ? facts.fistulaShowsColour.value : facts.noticedNotDraining.value
}

function whenFound(
  plan: PlannedEvent,
  feltFrom: number,
  random: Random,
): Pick<TrueEvent, 'ownCall' | 'visit' | 'fixAfter'> {
  const { type, onsetHour } = plan
  const fixAfter = random.between(...fixHours.value)
  const visit = onsetHour + random.between(...visitDays.value) * 24
  if (type === 'silence')
    return {
      ownCall: onsetHour + (plan.days ?? random.between(...facts.silenceDays.value)) * 24,
      visit: null,
      fixAfter: 0,
    }
  if (plan.calledAfterHours === null) return { ownCall: null, visit: null, fixAfter }
  if (plan.calledAfterHours !== undefined)
    return { ownCall: onsetHour + plan.calledAfterHours, visit, fixAfter }
  if (type === 'recovery') return { ownCall: null, visit, fixAfter }
  const { probability, medianHours } = ownCall[type].value
  const calls = random.chance(probability)
  const after = medianHours * Math.exp(random.normal(0, 0.8))
  return { ownCall: calls ? feltFrom + after : null, visit, fixAfter }
}
