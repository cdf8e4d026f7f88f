import type { DayLimit } from '@/lib/domain/day-limit.ts'
import { dayMonth } from '@/lib/domain/local-time.ts'
import { barText, type DayBar, type DayRow, topOf } from './days.ts'
import { type Inks, level, onSheet, type Series, type Where } from './series.ts'

/** A bar at least this wide has room for its number. */
const ROOMY_PX = 34

type Draw = { inks: Inks; pxPerDay: number }
type Drain = { row: DayRow; usual: number | null; limits: readonly DayLimit[] }

/** One drain's days: bars, the usual output behind them, the levels that the rules look at, and what is not known. */
export function outputSeries(
  { row, usual, limits }: Drain,
  where: Where,
  { inks, pxPerDay }: Draw,
): Series[] {
  const top = topOf([row], usual)
  const isRoomy = pxPerDay >= ROOMY_PX
  // Where bars are narrow only the newest says its number.
  const labelled = isRoomy ? row.bars : row.bars.slice(-1)
  return [
    {
      ...where,
      type: 'bar',
      barWidth: Math.max(2, pxPerDay * 0.68),
      silent: false,
      data: row.bars.map((bar) => ({
        value: [bar.x, bar.netMl],
        name: `${dayMonth(bar.date)} · net ${barText(bar)} mL`,
        itemStyle:
          bar.kind === 'partial'
            ? { color: inks.hatch, borderColor: inks.output, borderWidth: 1 }
            : bar.kind === 'last'
              ? { color: inks.output }
              : { color: inks.outputBefore, borderColor: inks.outputEdge, borderWidth: 1 },
        label: {
          show: labelled.includes(bar),
          ...barLabel(bar, isRoomy ? top : 0, inks),
          formatter: barText(bar),
          fontSize: 12,
        },
      })),
      markLine: {
        silent: true,
        symbol: 'none',
        animation: false,
        data: limits
          .filter(({ mlPerDay }) => mlPerDay < top)
          .map(({ mlPerDay, says }) => ({
            yAxis: mlPerDay,
            name: says,
            lineStyle: { color: inks.urgencyEdge, type: 'dashed', width: 1 },
            label: level(says, inks.urgencyInk),
          })),
      },
    },
    usualSeries(usual, where, inks),
    unknownSeries(row, where, top, { inks, pxPerDay }),
  ]
}

/** The usual output behind the bars: a line and a band of a tenth either way. */
function usualSeries(usual: number | null, where: Where, inks: Inks): Series {
  if (usual === null) return { ...where, type: 'scatter', data: [] }
  return {
    ...where,
    type: 'scatter',
    z: 1,
    data: [],
    markLine: {
      silent: true,
      symbol: 'none',
      z: 1,
      lineStyle: { color: inks.bandEdge, type: 'solid', width: 1 },
      data: [{ yAxis: usual, name: 'usual', label: level(`usual ${Math.round(usual)}`, inks.ink) }],
    },
    ...(usual > 0
      ? {
          markArea: {
            silent: true,
            z: 0,
            itemStyle: { color: inks.band },
            data: [[{ yAxis: usual * 0.9 }, { yAxis: usual * 1.1 }]],
          },
        }
      : {}),
  }
}

/** A bar's own number stands in it, where it has the height; else above it, on the sheet's own ground. */
function barLabel({ netMl, kind }: DayBar, top: number, inks: Inks): Series {
  if (top > 0 && netMl >= top * 0.12 && kind !== 'partial')
    return { position: 'insideTop', color: kind === 'last' ? inks.sheet : inks.ink }
  return { position: netMl < 0 ? 'bottom' : 'top', distance: 3, color: inks.ink, ...onSheet(inks) }
}

/** Days of which nothing is known: a word where there is room, a dotted stub where there is none. */
function unknownSeries({ unknown }: DayRow, where: Where, top: number, { inks, pxPerDay }: Draw): Series {
  const words = (days: number) =>
    pxPerDay * days >= 62 ? 'not logged' : pxPerDay * days >= 34 ? 'not\nlogged' : ''
  return {
    ...where,
    type: 'scatter',
    symbolSize: 1,
    silent: true,
    itemStyle: { opacity: 0 },
    data: unknown.map(({ from, to }) => ({
      value: [(from + to) / 2, 0],
      name: 'not logged',
      label: {
        show: true,
        position: 'top',
        formatter: words(to - from) || '⋮',
        color: inks.ink2,
        fontSize: 12,
        lineHeight: 14,
      },
    })),
    markLine: {
      silent: true,
      symbol: 'none',
      data: unknown.flatMap(({ from, to }) => [
        [{ coord: [from + 0.15, top * 0.004] }, { coord: [to - 0.15, top * 0.004] }],
      ]),
      lineStyle: { color: inks.ink2, type: 'dotted', width: 2 },
    },
  }
}
