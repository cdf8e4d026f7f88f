import type { HourNumbers } from '@/lib/domain/numbers.ts'

export const SERIES = ['opened', 'attempts', 'reached'] as const
export type Series = (typeof SERIES)[number]
export const seriesLabels: Readonly<Record<Series, string>> = {
  opened: 'rows opened',
  attempts: 'attempts to call',
  reached: 'of these reached',
}

/** The picture's size in its own units, and the room for the axes. */
export const WIDTH = 960
export const HEIGHT = 240
export const LEFT = 36
export const BOTTOM = 28
const TOP = 10

export type Bar = { key: string; series: Series; x: number; y: number; width: number; height: number }
export type Picture = {
  bars: Bar[]
  ticks: { value: number; y: number }[]
  labels: { key: string; text: string; x: number }[]
  /** Where the hours begin that lie ahead; null on a day that is over. */
  aheadX: number | null
}

/** Lines of the axis: whole numbers, four or five of them. */
export function ticksFor(most: number): number[] {
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find((one) => most / one <= 5) ?? most
  const top = Math.max(1, Math.ceil(most / step)) * step
  return Array.from({ length: top / step + 1 }, (_, i) => i * step)
}

/** Bars of each hour, side by side; what lies ahead has none. */
export function pictureOf(hours: readonly HourNumbers[]): Picture {
  const most = Math.max(...hours.flatMap((hour) => SERIES.map((name) => hour[name] ?? 0)), 1)
  const ticks = ticksFor(most)
  const top = ticks.at(-1) ?? 1
  const yOf = (value: number) => HEIGHT - BOTTOM - (value / top) * (HEIGHT - BOTTOM - TOP)
  const slot = (WIDTH - LEFT) / Math.max(1, hours.length)
  const width = Math.max(2, (slot - 6) / SERIES.length)
  const ahead = hours.findIndex(({ opened }) => opened === null)
  return {
    bars: hours.flatMap((hour, i) =>
      SERIES.flatMap((series, n) => {
        const value = hour[series]
        if (value === null || value === 0) return []
        const y = yOf(value)
        const x = LEFT + i * slot + 3 + n * width
        return [
          { key: `${hour.from} ${series}`, series, x, y, width: width - 1, height: HEIGHT - BOTTOM - y },
        ]
      }),
    ),
    ticks: ticks.map((value) => ({ value, y: yOf(value) })),
    labels: hours.flatMap(({ from, label }, i) =>
      i % 2 === 0 ? [{ key: from, text: label.slice(0, 2), x: LEFT + i * slot + slot / 2 }] : [],
    ),
    aheadX: ahead < 0 ? null : LEFT + ahead * slot,
  }
}
