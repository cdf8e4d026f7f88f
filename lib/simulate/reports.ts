import type { Dressing, Flush, Reading, Report } from '../domain/record.ts'
import type { CourseOfEvents } from './course-of-events.ts'
import type { Output } from './output.ts'
import { body, care, reading as facts } from './parameters.ts'
import type { PlaceInTime } from './place-in-time.ts'
import type { SimulatedDrain } from './population.ts'
import { type Random, randomFor } from './random.ts'
import type { Slot } from './slots.ts'
import { appearanceAt, dressingAt, type Moment, symptomsAt } from './statements.ts'
import { readVolume, type Slip, slipOf, typed } from './volume.ts'

export type MissedFate = keyof typeof facts.missed.value

/** State of one drain as the simulation walks through its slots. */
type Standing = {
  readonly index: number
  readonly simulated: SimulatedDrain
  emptiedAt: number
  tubeSince: number
  /** What the patient does with the volumes of this run of missed slots; null: none is missed. */
  fate: MissedFate | null
  /** Volumes of missed slots that the patient will add to the next entry, or enter on their own. */
  addedMl: number
  separate: { hour: number; ml: number }[]
  /** When something was last poured away unmeasured; whoever is asked says so. */
  lostAt: number | null
  /** What flushes left in the vessel since it was emptied. */
  returnedMl: number
  dressedAt: number
  flushedAt: number
}

type World = {
  seed: number
  time: PlaceInTime
  course: CourseOfEvents
  outputs: readonly Output[]
  usualPain: number
  horizonHours: number
  missed: MissedFate | null
}

/** All that the patient sends, in the order of receipt, and which of it is mistyped. */
export function reportsOf(
  world: World,
  drains: readonly SimulatedDrain[],
  slots: readonly Slot[],
): { reports: Report[]; mistyped: ReadonlySet<string> } {
  const standing = drains.map((simulated, index): Standing => {
    const before = randomFor(world.seed, 'before', index)
    return {
      index,
      simulated,
      emptiedAt: 0,
      tubeSince: -simulated.ageDays * 24,
      fate: null,
      addedMl: 0,
      separate: [],
      lostAt: null,
      returnedMl: 0,
      dressedAt: -before.between(0, simulated.drain.plan.dressingEveryHours),
      flushedAt: 0,
    }
  })
  const made: { received: number; report: Report }[] = []
  const wrong = new Set<string>()
  slots.forEach((slot, i) => {
    const random = randomFor(world.seed, 'slot', i, Math.round(slot.hour))
    const present = standing.filter(
      ({ index }) => slot.hour < (world.course.removedAt[index] ?? Number.POSITIVE_INFINITY),
    )
    if (present.length === 0) return
    for (const drain of present) newTube(world, drain, slot.hour)
    const moment: Moment = {
      hour: slot.hour,
      events: world.course.events,
      usualPain: world.usualPain,
      random,
      asked: slot.asked,
    }
    if (!slot.reported) {
      for (const drain of present) missed(world, drain, slot.hour, random)
      return
    }
    const late = !slot.outOfTurn && random.chance(facts.lateEntry.value) ? random.between(2, 10) : 0
    const received = slot.hour + random.between(0.1, 0.25) + late
    const drawnSlip = slipOf(random)
    const slip = slot.asked ? null : drawnSlip
    const corrected = random.chance(facts.corrected.value) ? received + random.between(0.5, 6) : null
    const id = `r${i + 1}`
    const parts = partsAt(world, moment, present)
    if (slip) wrong.add(id)
    made.push({
      received,
      report: {
        id,
        receivedAt: world.time.iso(received),
        ...(slip ? mistyped(parts, slip, world.time, received) : parts),
      },
    })
    if (slip && corrected !== null)
      made.push({
        received: corrected,
        report: { id: `${id}c`, receivedAt: world.time.iso(corrected), ...parts, supersedes: id },
      })
  })
  const reports = made
    .filter(({ received }) => received < world.horizonHours)
    .sort((a, b) => a.received - b.received)
    .map(({ report }) => report)
  return { reports, mistyped: wrong }
}

/** An exchange or a new placement empties the vessel and starts the stretch afresh. */
function newTube(world: World, drain: Standing, hour: number): void {
  for (const event of world.course.staffEvents) {
    if (event.drain !== drain.simulated.drain.id || event.hour > hour || event.hour <= drain.emptiedAt)
      continue
    if (event.type !== 'exchanged' && event.type !== 'replaced') continue
    Object.assign(drain, {
      emptiedAt: event.hour,
      tubeSince: event.hour,
      dressedAt: event.hour,
      fate: null,
      addedMl: 0,
      separate: [],
      lostAt: null,
      returnedMl: 0,
    })
  }
}

const inVessel = (world: World, drain: Standing, hour: number) =>
  (world.outputs[drain.index]?.between(drain.emptiedAt, hour) ?? 0) + drain.returnedMl

function missed(world: World, drain: Standing, hour: number, random: Random): void {
  const ml = inVessel(world, drain, hour)
  const { added, separate, lost } = facts.missed.value
  const drawn = random.weighted([
    ['added', added],
    ['separate', separate],
    ['lost', lost],
  ] as const)
  drain.fate ??= world.missed ?? drawn
  if (drain.fate === 'lost') drain.lostAt = hour
  if (drain.fate === 'added') drain.addedMl += ml
  if (drain.fate === 'separate') drain.separate.push({ hour, ml })
  drain.emptiedAt = hour
  drain.returnedMl = 0
  flush(world, drain, hour, random)
  if (
    hour - drain.dressedAt >= drain.simulated.drain.plan.dressingEveryHours - 8 &&
    random.chance(care.dressingDone.value)
  )
    drain.dressedAt = hour
}

/** What one report says: each drain's vessel, then its flush, its dressing, and how the patient is. */
function partsAt(
  world: World,
  moment: Moment,
  present: readonly Standing[],
): Pick<Report, 'readings' | 'flushes' | 'dressings' | 'symptoms'> {
  const { random, hour } = moment
  const readings: Reading[] = []
  const flushes: Flush[] = []
  const dressings: Dressing[] = []
  for (const drain of present) {
    readings.push(...readingsAt(world, moment, drain))
    const given = flush(world, drain, hour, random)
    if (given && random.chance(care.flushRecorded.value)) flushes.push(given)
    const due = hour - drain.dressedAt >= drain.simulated.drain.plan.dressingEveryHours - 8
    const { done, said } = dressingAt(
      moment,
      drain.simulated.drain.id,
      world.time.iso(hour + 0.07),
      due,
      true,
    )
    if (done) drain.dressedAt = hour
    if (said) dressings.push(said)
  }
  const answers = random.chance(body.answersSymptoms.value) || moment.asked
  const told = symptomsAt(
    moment,
    world.time.iso(hour),
    present.map(({ index, simulated }) => ({ id: simulated.drain.id, index })),
  )
  const grave = told.drains?.some((drain) => drain.position === 'out') || (told.general?.length ?? 0) > 0
  return { readings, flushes, dressings, symptoms: answers || grave ? told : null }
}

function readingsAt(world: World, moment: Moment, drain: Standing): Reading[] {
  const { random, hour } = moment
  const { simulated } = drain
  const id = simulated.drain.id
  const out = world.course.events.some(
    (event) =>
      event.type === 'drain-out' &&
      event.drain === drain.index &&
      hour >= event.onset &&
      (event.end === null || hour < event.end.at),
  )
  const drawnUnmeasured = random.chance(out ? 0.6 : facts.notMeasured.value)
  const unmeasured = drawnUnmeasured && (out || !moment.asked)
  const appearance = appearanceAt(moment, simulated.drain.kind, drain.index, hour - drain.tubeSince)
  const vessel = inVessel(world, drain, hour)
  const volumeMl = readVolume(vessel + drain.addedMl, simulated.markMl, random)
  const earlier = drain.separate.map(
    (entry): Reading => ({
      drain: id,
      at: world.time.iso(entry.hour),
      volumeMl: readVolume(entry.ml, simulated.markMl, random),
    }),
  )
  if (moment.asked && drain.lostAt !== null)
    earlier.push({ drain: id, at: world.time.iso(drain.lostAt), volumeMl: null })
  const summed = drain.addedMl > 0 || volumeMl >= simulated.capacityMl * 0.9
  Object.assign(drain, { emptiedAt: hour, fate: null, addedMl: 0, separate: [], lostAt: null, returnedMl: 0 })
  return [
    ...earlier,
    {
      drain: id,
      at: world.time.iso(hour),
      volumeMl: unmeasured ? null : volumeMl,
      appearance,
      ...(summed && !unmeasured ? { total: true } : {}),
    },
  ]
}

/** Gives a flush that is due; a blocked tube lets little of it back. */
function flush(world: World, drain: Standing, hour: number, random: Random): Flush | null {
  const order = drain.simulated.drain.plan.flush
  const done = random.chance(care.flushDone.value)
  const feels = random.uniform()
  if (!order || !done || hour - drain.flushedAt < order.everyHours - 4) return null
  drain.flushedAt = hour
  const own = world.course.events.filter(
    (event) =>
      event.drain === drain.index && hour >= event.onset && (event.end === null || hour < event.end.at),
  )
  if (own.some((event) => event.type === 'drain-out')) return null
  const blocked = own.some(
    (event) =>
      event.type === 'sudden-obstruction' ||
      (event.type === 'gradual-obstruction' && event.halfFrom !== null && hour > event.halfFrom),
  )
  const retained = blocked ? 0.9 : care.flushRetained.value
  drain.returnedMl += order.volumeMl * (1 - retained)
  const ease = blocked
    ? feels < 0.5
      ? 'blocked'
      : feels < 0.85
        ? 'stiff'
        : 'easy'
    : feels < 0.03
      ? 'stiff'
      : 'easy'
  return { drain: drain.simulated.drain.id, at: world.time.iso(hour + 0.05), volumeMl: order.volumeMl, ease }
}

function mistyped<T extends Pick<Report, 'readings'>>(
  parts: T,
  slip: Slip,
  time: PlaceInTime,
  received: number,
): T {
  return {
    ...parts,
    readings: parts.readings?.map((entry) =>
      slip === 'time'
        ? { ...entry, at: time.iso(received + 12) }
        : { ...entry, volumeMl: entry.volumeMl === null ? null : typed(entry.volumeMl, slip) },
    ),
  }
}
