import { daysBetween, type LocalDay } from './days.ts'
import type { Stretch } from './stretches.ts'

const HOUR_MS = 3_600_000

/** What the stretches say of one local day. */
export interface DayOutput extends LocalDay {
  /** Sum of the parts of stretches that fall in the day, mL; means nothing at coverage 0. */
  netMl: number
  /** Covered share of the day's real time, 0 to 1. */
  coverage: number
  hours: number
  /** The covering stretches, as positions in the list that was spread. */
  from: number[]
}

/**
 * Spreads each stretch's net output evenly over its real elapsed time on local days.
 * @returns the days from the first covered one to the last covered one, none left out between
 */
export function spreadOverDays(zone: string, stretches: readonly Stretch[]): DayOutput[] {
  const known = stretches.filter((s) => s.netMl !== null)
  const first = known[0]
  const last = known.at(-1)
  if (!first || !last) return []
  const days = daysBetween(zone, first.start, last.end - 1).map(
    (day): DayOutput => ({
      date: day.date,
      start: day.start,
      end: day.end,
      netMl: 0,
      coverage: 0,
      hours: (day.end - day.start) / HOUR_MS,
      from: [],
    }),
  )
  let d = 0
  for (let i = 0; i < stretches.length; i++) {
    const stretch = stretches[i] as Stretch
    if (stretch.netMl === null) continue
    while ((days[d] as DayOutput).end <= stretch.start) d++
    for (let k = d; k < days.length && (days[k] as DayOutput).start < stretch.end; k++)
      addShare(days[k] as DayOutput, stretch, i)
  }
  return days
}

/** Adds to a day the part of a measured stretch that falls in it. */
export function addShare(day: DayOutput, stretch: Stretch, position: number): void {
  const share = Math.min(day.end, stretch.end) - Math.max(day.start, stretch.start)
  day.netMl += ((stretch.netMl as number) * share) / (stretch.end - stretch.start)
  day.coverage += share / (day.end - day.start)
  day.from.push(position)
}

/** Part of the stretches that falls in [from, to): net in mL and covered share. */
export function within(
  stretches: readonly Stretch[],
  from: number,
  to: number,
  lastIndex = stretches.length - 1,
) {
  let netMl = 0
  let covered = 0
  let coarse = false
  const used: Stretch[] = []
  for (let i = lastIndex; i >= 0; i--) {
    const stretch = stretches[i] as Stretch
    if (stretch.end <= from) break
    const share = Math.min(to, stretch.end) - Math.max(from, stretch.start)
    if (share <= 0 || stretch.netMl === null) continue
    netMl += (stretch.netMl * share) / (stretch.end - stretch.start)
    covered += share
    coarse ||= stretch.coarse
    used.push(stretch)
  }
  return { netMl, coverage: covered / (to - from), coarse, used: used.reverse() }
}
