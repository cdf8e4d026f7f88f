import { more } from '../compare.ts'
import type { ReadingValue, Stated } from './prepare.ts'
import type { DrainView } from './view.ts'

const HOUR_MS = 3_600_000

/** One covered stretch: from one emptying to the next. Net output is emptied less flushed; null where it was not measured. */
export interface Stretch {
  start: number
  end: number
  hours: number
  volumeMl: number | null
  flushedMl: number
  netMl: number | null
  /** Ordered flush volume that is due in the stretch's hours and not recorded. */
  missingFlushMl: number
  /** Longer than the coarse limit: too long to say on which day it came. */
  coarse: boolean
  /** More than the bag can have held: suspect. */
  overfull: boolean
  readings: Stated<ReadingValue>[]
}

/** A reading whose stated time cannot be: after its receipt, or before the drain was placed. It enters no stretch. */
export function timeIsSuspect(drain: DrainView, reading: Stated<ReadingValue>): boolean {
  return (
    reading.at > reading.receivedAt + drain.limits.suspectFutureMinutes * 60_000 ||
    reading.at < drain.facts.placedAt
  )
}

/** Whether a reading, unless it is a total, says more than the bags that could have held it. */
export const overfull = ({ facts, limits }: DrainView, { value }: Stated<ReadingValue>): boolean =>
  !value.total &&
  value.volumeMl !== null &&
  facts.bagCapacityMl !== null &&
  more(value.volumeMl, limits.suspectBagMultiple * facts.bagCapacityMl)

/** Volume of several readings at one instant: equal ones count once, different ones are added; null where none was measured. */
function together(readings: readonly Stated<ReadingValue>[]): number | null {
  if (readings.length === 1) return (readings[0] as Stated<ReadingValue>).value.volumeMl
  const volumes = new Set<number>()
  for (const { value } of readings) if (value.volumeMl !== null) volumes.add(value.volumeMl)
  return volumes.size === 0 ? null : [...volumes].reduce((sum, v) => sum + v, 0)
}

/**
 * The covered stretches of a drain, in order. A stretch starts at the latest of the reading before it
 * and the placement, exchange, replacement or uncapping before it; where no reading came since, at
 * enrolment if that is later.
 */
export function stretchesOf(drain: DrainView): Stretch[] {
  const { starts } = drain.tube
  const { enrolledAt } = drain.view.record
  const readings = drain.view.seen(drain.facts.readings).filter((r) => !timeIsSuspect(drain, r))
  const flushes = drain.view.seen(drain.facts.flushes)
  const order = drain.facts.plan.flush ?? null
  const stretches: Stretch[] = []
  let previous = Number.NEGATIVE_INFINITY
  let begun = 0 // how many of `starts` lie before the reading
  let flush = 0
  for (let i = 0; i < readings.length; ) {
    const first = readings[i] as Stated<ReadingValue>
    const at = first.at
    const same = [first]
    for (i++; i < readings.length && (readings[i] as Stated<ReadingValue>).at === at; i++)
      same.push(readings[i] as Stated<ReadingValue>)
    while (begun < starts.length && (starts[begun] as number) < at) begun++
    const tubeStart = begun > 0 ? (starts[begun - 1] as number) : Number.NEGATIVE_INFINITY
    let start = tubeStart
    if (previous >= tubeStart) start = previous
    else if (enrolledAt < at && enrolledAt > start) start = enrolledAt
    previous = at
    if (!(start < at) || start === Number.NEGATIVE_INFINITY) continue // the instant of placement covers nothing
    let flushedMl = 0
    let recorded = 0
    while (flush < flushes.length && (flushes[flush] as Stated<number | null>).at < start) flush++
    for (; flush < flushes.length; flush++) {
      const given = flushes[flush] as Stated<number | null>
      if (given.at >= at) break
      if (given.value === null) continue // an unknown volume is not subtracted, and the order still counts as missing
      flushedMl += given.value
      recorded++
    }
    const hours = (at - start) / HOUR_MS
    const due = order ? Math.floor(hours / order.everyHours) : 0
    const volumeMl = together(same)
    stretches.push({
      start,
      end: at,
      hours,
      volumeMl,
      flushedMl,
      netMl: volumeMl === null ? null : volumeMl - flushedMl,
      missingFlushMl: order ? Math.max(0, due - recorded) * order.volumeMl : 0,
      coarse: hours > drain.limits.coarseHours,
      overfull: same.some((r) => overfull(drain, r)),
      readings: same,
    })
  }
  return stretches
}

/** Net output of a stretch if the ordered flushes that were not recorded were given all the same. */
export const worstNetMl = (stretch: Stretch): number | null =>
  stretch.netMl === null ? null : stretch.netMl - stretch.missingFlushMl
