import type { KindCourse } from '@/lib/domain/kind-course.ts'
import { dayMonth, daysBetween } from '@/lib/domain/local-time.ts'
import type { SlowChange } from '@/lib/domain/slow-change.ts'
import type { Axis } from './axis.ts'
import type { Output } from './outputs.ts'
import { boxWithin, drawn, type Inks, type Series, type Where, words } from './series.ts'

/** What stands behind the bars on demand: median and quartiles of this kind of drain in this clinic, by day since placement. */
export function courseSeries(
  course: KindCourse,
  output: Output,
  axis: Axis,
  where: Where,
  inks: Inks,
): Series {
  const start = daysBetween(axis.first, output.placed)
  const days = course.days.filter(({ day }) => start + day >= 0 && start + day < axis.count + axis.ahead)
  return drawn(
    where,
    days.map(({ day, median, q1, q3 }) => [start + day, median, q1, q3]),
    (place, pen) => {
      const x = pen.value(0)
      const box = boxWithin(place, pen.coord([x, pen.value(3)]), pen.coord([x + 1, pen.value(2)]))
      if (!box) return null
      const [, middle] = pen.coord([x, pen.value(1)])
      return {
        type: 'group',
        children: [
          { type: 'rect', shape: box, style: { fill: inks.rule, opacity: 0.7 } },
          {
            type: 'line',
            shape: { x1: box.x, y1: middle, x2: box.x + box.width, y2: middle },
            style: { stroke: inks.ink2, lineWidth: 2 },
          },
        ],
      }
    },
    { id: `course ${output.id}`, z: 1 },
  )
}

/** The slow-change chart: its average after each whole day, and under it the limit, over the days that it charts. */
export function slowSeries(
  { chart }: Pick<SlowChange, 'chart'>,
  { id }: Output,
  axis: Axis,
  where: Where,
  inks: Inks,
): Series[] {
  if (!chart) return []
  const points = chart.days.map(({ date, averageMl }) => [daysBetween(axis.first, date) + 0.5, averageMl])
  const [first, last] = [points[0]?.[0] ?? 0, points.at(-1)?.[0] ?? 0]
  const line = { ...where, type: 'line', silent: true, symbol: 'none', z: 6, clip: true }
  return [
    {
      ...line,
      id: `slow ${id}`,
      symbol: 'circle',
      symbolSize: 5,
      showAllSymbol: true,
      lineStyle: { color: inks.ink, width: 2 },
      itemStyle: { color: inks.ink },
      data: points,
    },
    {
      ...line,
      id: `slow limit ${id}`,
      lineStyle: { color: inks.urgencyEdge, width: 2, type: 'dotted' },
      data: [
        [first - 0.5, chart.limitMl],
        [last + 0.5, chart.limitMl],
      ],
    },
  ]
}

/** What the words of a projection take at most, px. */
const WORDS_PX = 150

/** Where removal is expected: a mark on the level at its day, and a bar from the earliest to the latest. */
export function projectionSeries(output: Output, axis: Axis, where: Where, inks: Inks): Series[] {
  const { projection, limits } = output
  const level = limits.find(({ side }) => side === 'below')
  if (!projection || !level) return []
  const y = level.mlPerDay
  const end = axis.count + axis.ahead
  const x = (date: string) => daysBetween(axis.first, date) + 0.5
  const [from, at] = [x(projection.earliest), x(projection.date)]
  const to = projection.latest === null ? end : x(projection.latest)
  return [
    drawn(
      where,
      [[from, y, at, Math.min(to, end)]],
      (place, pen) => {
        const [left, height] = pen.coord([from, y])
        const [right] = pen.coord([Math.min(to, end), y])
        const box = boxWithin(place, [left, height], [right, height])
        if (!box) return null
        const [middle] = pen.coord([at, y])
        const edge = { stroke: inks.output, lineWidth: 2 }
        const upright = (x1: number, reach: number) => ({
          type: 'line',
          shape: { x1, y1: height - reach, x2: x1, y2: height + reach },
          style: edge,
        })
        const isOpen = projection.latest === null || to > end
        const seen = middle >= place.coordSys.x && middle <= place.coordSys.x + place.coordSys.width
        return {
          type: 'group',
          children: [
            {
              type: 'line',
              shape: { x1: box.x, y1: height, x2: box.x + box.width, y2: height },
              style: edge,
            },
            upright(box.x, 4),
            ...(isOpen ? [] : [upright(box.x + box.width, 4)]),
            ...(seen
              ? [
                  {
                    type: 'circle',
                    shape: { cx: middle, cy: height, r: 4.5 },
                    style: { fill: inks.sheet, stroke: inks.output, lineWidth: 2 },
                  },
                ]
              : []),
            words(
              projectionText(projection),
              {
                x: Math.min(box.x, place.coordSys.x + place.coordSys.width - WORDS_PX),
                y: height - 9,
                align: 'left',
                verticalAlign: 'bottom',
              },
              inks,
              { ground: inks.sheet },
            ),
          ],
        }
      },
      { id: `projection ${output.id}`, z: 7 },
    ),
  ]
}

/** @example projectionText({ date: '2026-12-02', … }) // 'removal check about 2 Dec\n28 Nov to 10 Dec' */
export const projectionText = ({ date, earliest, latest }: NonNullable<Output['projection']>): string =>
  `removal check about ${dayMonth(date)}\n${dayMonth(earliest)} to ${latest === null ? 'no known end' : dayMonth(latest)}`
