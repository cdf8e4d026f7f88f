import type { LocalDate } from '@/lib/domain/instant.ts'
import { daysBetween } from '@/lib/domain/local-time.ts'
import type { Axis } from './axis.ts'
import type { OutputDay } from './outputs.ts'

export type DayBar = {
  x: number
  date: LocalDate
  netMl: number
  kind: 'complete' | 'last' | 'partial'
  isToday: boolean
  atLeast: boolean
  coverage: number
  hours: number | null
}
/** A run of days of which nothing is known, with the word for why. */
export type Unknown = { from: number; to: number; why: string }
export type DayRow = { bars: DayBar[]; unknown: Unknown[] }

/**
 * The days of an output on the axis: bars for what is known, runs of days for what is not. An unknown day has no
 * height: it is never a zero. The day that is not over counts as partial, not as unknown.
 */
export function dayRow(days: readonly OutputDay[], axis: Axis): DayRow {
  const shown = days
    .map((day) => ({ ...day, at: daysBetween(axis.first, day.date) }))
    .filter(({ at }) => at >= 0 && at < axis.count)
  const last = shown.findLast(({ complete }) => complete)
  const bars: DayBar[] = []
  const unknown: Unknown[] = []
  for (const { at, date, netMl, coverage, complete, hours, atLeast, why } of shown) {
    if (netMl !== null) {
      const kind = !complete ? 'partial' : date === last?.date ? 'last' : 'complete'
      const isToday = at === axis.count - 1
      bars.push({ x: at + 0.5, date, netMl, kind, isToday, atLeast, coverage, hours })
      continue
    }
    const word = why.startsWith('no sum') ? 'no sum' : whyText(why, at === axis.count - 1)
    const run = unknown.at(-1)
    if (run && run.to === at && run.why === word) run.to = at + 1
    else unknown.push({ from: at, to: at + 1, why: word })
  }
  return { bars, unknown }
}

/** A day that is not over may still be logged. */
const whyText = (why: string, isToday: boolean) => (isToday && why === 'not logged' ? 'nothing yet' : why)

/** How much of a day is known. @example coveredText({ coverage: 0.3, hours: 24 }) // '7 of 24 h' */
export function coveredText({ coverage, hours }: Pick<DayBar, 'coverage' | 'hours'>): string {
  if (hours === null) return ''
  const known = Math.round(coverage * hours)
  return `${known === 0 ? 'under 1' : known} of ${Math.round(hours * 10) / 10} h`
}

/** What a bar says of itself, in at most two short lines. */
export function barText({ netMl, kind, isToday, atLeast, coverage, hours }: DayBar): string {
  const volume = `${atLeast ? '≥ ' : ''}${Math.round(netMl)}`
  if (kind !== 'partial') return volume
  const known = coveredText({ coverage, hours }).replace('under ', '<').replace(' of ', '/')
  return `${volume} ${isToday ? 'so far' : 'in part'}${known ? `\n${known}` : ''}`
}

/** The day's output in a sentence. */
export function dayVolume(day: OutputDay, isToday: boolean): string {
  if (day.netMl === null) return whyText(day.why, isToday)
  const volume = `${day.atLeast ? 'at least ' : ''}${Math.round(day.netMl * 10) / 10} mL`
  if (day.complete) return volume
  return `${volume} ${isToday ? 'so far' : 'in part'}, ${coveredText(day)} covered`
}

/** The top of the output scale: a round number over everything that is drawn. */
export function topOf(rows: readonly DayRow[], usual: number | null, others: readonly number[] = []): number {
  const most = Math.max(
    10,
    (usual ?? 0) * 1.2,
    ...others.map((one) => one * 1.08),
    ...rows.flatMap(({ bars }) =>
      bars.map(({ netMl, kind, atLeast }) => netMl * (kind === 'partial' || atLeast ? 1.2 : 1.12)),
    ),
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
