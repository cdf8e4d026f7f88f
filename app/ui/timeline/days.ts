import type { Day } from '@/lib/domain/assessment.ts'
import { daysBetween } from '@/lib/domain/local-time.ts'
import type { Axis } from './axis.ts'

/** From this coverage on a day counts as complete. */
const COMPLETE = 0.9

export type DayBar = {
  x: number
  date: string
  netMl: number
  kind: 'complete' | 'last' | 'partial'
  isToday: boolean
}
export type Unknown = { from: number; to: number }
export type DayRow = { bars: DayBar[]; unknown: Unknown[] }

/**
 * A drain's days on the axis: bars for what is known, runs of days for what is not. An unknown day has no
 * height: it is never a zero. The day that is not over counts as partial, not as unknown.
 */
export function dayRow(days: readonly Day[], axis: Axis): DayRow {
  const shown = days
    .map((day) => ({ ...day, at: daysBetween(axis.first, day.date) }))
    .filter(({ at }) => at >= 0 && at < axis.count)
  const last = shown.findLast(({ netMl, coverage }) => netMl !== null && coverage >= COMPLETE)
  const bars: DayBar[] = []
  const unknown: Unknown[] = []
  for (const { at, date, netMl, coverage } of shown) {
    const isToday = at === axis.count - 1
    if (netMl !== null) {
      const kind = coverage < COMPLETE ? 'partial' : date === last?.date ? 'last' : 'complete'
      bars.push({ x: at + 0.5, date, netMl, kind, isToday })
      continue
    }
    const run = unknown.at(-1)
    if (run && run.to === at) run.to = at + 1
    else unknown.push({ from: at, to: at + 1 })
  }
  return { bars, unknown }
}

/** What a bar says of itself. */
export function barText({ netMl, kind, isToday }: DayBar): string {
  const volume = String(Math.round(netMl))
  return kind === 'partial' ? `${volume} ${isToday ? 'so far' : 'in part'}` : volume
}

/** The top of the output scale: a round number over everything that is drawn. */
export function topOf(rows: readonly DayRow[], usual: number | null): number {
  const most = Math.max(
    10,
    (usual ?? 0) * 1.2,
    ...rows.flatMap(({ bars }) => bars.map(({ netMl }) => netMl * 1.12)),
  )
  const step = 10 ** Math.floor(Math.log10(most))
  return (
    [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10]
      .map((times) => times * step)
      .find((round) => round >= most) ?? most
  )
}

/** The bottom of it: zero, or what came back negative. */
export const bottomOf = ({ bars }: DayRow): number => {
  const least = Math.min(0, ...bars.map(({ netMl }) => netMl))
  return least === 0 ? 0 : Math.floor((least * 1.2) / 10) * 10
}
