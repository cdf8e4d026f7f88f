import type { Event, PreparedDrain } from './prepare.ts'

/** What is known of the tube itself: since when it is this one, whether it is in, whether it is capped. */
export interface Tube {
  /** Placed, and not removed since. */
  active: boolean
  /** Instants at which a tube was put in (placed, exchanged, replaced), ascending. */
  news: number[]
  /** The newest of them. */
  newest: number
  /** Whether the newest came after the first placement: then what was stated up to it belongs to the tube before. */
  renewed: boolean
  /** The newest of placed and replaced; an exchange is not among them. */
  placedOrReplaced: number
  /** Start of this tube's own series: newest tube or newest uncapping. */
  start: number
  /** Instants that start a new series, ascending. */
  starts: number[]
  cappedSince: number | null
  /** End of the newest capping that is over, or null. */
  uncappedAt: number | null
}

/** Whether a staff event speaks of this drain. */
const about = (event: Event, drain: PreparedDrain) => event.drain === drain.id

const ascending = (a: number, b: number) => a - b

export function tubeOf(drain: PreparedDrain, events: readonly Event[], cut: number): Tube {
  const news = [drain.placedAt]
  const starts = [drain.placedAt]
  let placedOrReplaced = drain.placedAt
  let removed =
    drain.removedAt !== null && drain.removedAt <= cut ? drain.removedAt : Number.NEGATIVE_INFINITY
  const caps: { at: number; on: boolean }[] = []
  if (drain.cappedAt !== null && drain.cappedAt <= cut) caps.push({ at: drain.cappedAt, on: true })
  for (const event of events) {
    if (!about(event, drain)) continue
    if (event.type === 'placed' || event.type === 'exchanged' || event.type === 'replaced') {
      news.push(event.at)
      starts.push(event.at)
      if (event.type !== 'exchanged') placedOrReplaced = Math.max(placedOrReplaced, event.at)
    } else if (event.type === 'uncapped') {
      starts.push(event.at)
      caps.push({ at: event.at, on: false })
    } else if (event.type === 'capped') caps.push({ at: event.at, on: true })
    else if (event.type === 'removed') removed = Math.max(removed, event.at)
  }
  news.sort(ascending)
  starts.sort(ascending)
  caps.sort((a, b) => a.at - b.at || Number(a.on) - Number(b.on))
  const newest = news.at(-1) as number
  let cappedSince: number | null = null
  let uncappedAt: number | null = null
  for (const cap of caps) {
    if (cap.on) cappedSince ??= cap.at
    else {
      if (cappedSince !== null) uncappedAt = cap.at
      cappedSince = null
    }
  }
  return {
    active: drain.placedAt <= cut && !(removed > newest || (removed === newest && newest === drain.placedAt)),
    news,
    newest,
    renewed: newest > drain.placedAt,
    placedOrReplaced,
    start: starts.at(-1) as number,
    starts,
    cappedSince,
    uncappedAt,
  }
}

/**
 * Whether what was stated at `when` is of this tube. What stands at the very instant of a new tube
 * belongs to the tube before; what stands at the first placement belongs to the first tube.
 */
export const ofTube = (tube: Tube, when: number) => (tube.renewed ? when > tube.newest : when >= tube.newest)

/** Likewise for what an uncapping starts anew as well. */
export const ofSeries = (tube: Tube, when: number) =>
  tube.start > tube.newest || tube.renewed ? when > tube.start : when >= tube.start
