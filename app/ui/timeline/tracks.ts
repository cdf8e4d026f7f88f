import { daysBetween } from '@/lib/domain/local-time.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import { type Axis, isShown } from './axis.ts'
import { type Happening, type Happenings, TRACKS, type Track } from './happenings.ts'

/** What happened, where it stands on the axis. */
export type Point = Happening & { x: number }
export type FlagBar = {
  from: number
  to: number
  urgency: Urgency
  isUpkeep: boolean
  lane: number
  name: string
  says: string
}
export type Tracks = Record<Track, Point[]> & { flags: FlagBar[]; lanes: number }

/** What of the happenings falls on the axis, placed on it. Cheap: the calendar was asked when they were read. */
export function tracksOf(happenings: Happenings, axis: Axis): Tracks {
  const days = new Map<string, number>()
  const dayOf = (date: string) => {
    let day = days.get(date)
    if (day === undefined) {
      day = daysBetween(axis.first, date)
      days.set(date, day)
    }
    return day
  }
  const placed = Object.fromEntries(
    TRACKS.map((track) => [
      track,
      happenings[track]
        .map((one): Point => ({ ...one, x: dayOf(one.date) + one.part }))
        .filter(({ x }) => isShown(axis, x)),
    ]),
  ) as Record<Track, Point[]>
  return {
    ...placed,
    lanes: happenings.lanes,
    flags: packed(
      happenings.flags
        .map(({ from, until, urgency, isUpkeep, lane, name, says }) => ({
          from: Math.max(0, dayOf(from.date) + from.part),
          to: dayOf(until.date) + until.part,
          ...{ urgency, isUpkeep, lane, name, says },
        }))
        .filter(({ from, to }) => to >= 0 && from <= axis.count),
    ),
  }
}

/** Lanes that are empty on this axis are left out. */
function packed(flags: readonly FlagBar[]): FlagBar[] {
  const lanes = [...new Set(flags.map(({ lane }) => lane))].toSorted((a, b) => a - b)
  return flags.map((flag) => ({ ...flag, lane: lanes.indexOf(flag.lane) }))
}
