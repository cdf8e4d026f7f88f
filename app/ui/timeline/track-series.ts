import { urgencyRank } from '@/lib/domain/words.ts'
import { type Inks, level, onSheet, type Series, type Where } from './series.ts'
import type { FlagBar, Point } from './tracks.ts'

const toneOf = (tone: Point['tone'], inks: Inks) =>
  tone === 'alarm'
    ? { color: inks.sheet, borderColor: inks.urgencyEdge, borderWidth: 2 }
    : tone === 'staff'
      ? { color: inks.owed }
      : { color: inks.outputBefore, borderColor: inks.outputEdge, borderWidth: 1 }

const symbols = {
  flush: 'circle',
  dressing: 'rect',
  position: 'diamond',
  events: 'triangle',
  calls: 'rect',
} as const

/** What happened, as points on a line. What is not as it should be is outlined and says so. */
export function pointSeries(
  name: keyof typeof symbols,
  points: readonly Point[],
  where: Where,
  inks: Inks,
): Series {
  return {
    ...where,
    type: 'scatter',
    symbol: symbols[name],
    symbolSize: 9,
    data: points.map(({ x, tone, label, says }, i) => ({
      value: [x, 0.5],
      name: says,
      itemStyle: toneOf(tone, inks),
      label: {
        show: label !== '',
        formatter: label,
        position: i === points.length - 1 && x > 0 ? 'left' : 'right',
        color: inks.ink,
        fontSize: 12,
        ...onSheet(inks),
      },
    })),
    labelLayout: { hideOverlap: true },
    markLine: base(inks, 0.5),
  }
}

const base = (inks: Inks, y: number): Series => ({
  silent: true,
  z: 0,
  symbol: 'none',
  label: { show: false },
  lineStyle: { color: inks.rule, type: 'solid', width: 1 },
  data: [{ yAxis: y }],
})

/** What was measured of the patient, as a line. */
export function lineSeries(
  name: 'temperature' | 'pain',
  points: readonly Point[],
  where: Where,
  inks: Inks,
  limit: number | null,
): Series {
  return {
    ...where,
    id: name,
    type: 'line',
    symbol: 'circle',
    symbolSize: 5,
    showAllSymbol: true,
    lineStyle: { color: inks.ink, width: 1 },
    itemStyle: { color: inks.ink },
    data: points.map(({ x, value, tone, label, says }) => ({
      value: [x, value],
      name: says,
      ...(tone === 'alarm' ? { symbolSize: 9, itemStyle: { color: inks.urgency[3] } } : {}),
      label: {
        show: label !== '',
        formatter: label,
        position: x > 1 ? 'left' : 'right',
        color: tone === 'alarm' ? inks.urgencyInk : inks.ink,
        fontSize: 12,
        ...onSheet(inks),
      },
    })),
    labelLayout: { hideOverlap: true },
    markLine:
      limit === null
        ? base(inks, 0)
        : {
            ...base(inks, 36),
            data: [
              { yAxis: 36 },
              {
                yAxis: limit,
                name: 'fever',
                lineStyle: { color: inks.urgencyEdge, type: 'dashed' },
                label: { show: true, ...level(`fever ${limit}`, inks.urgencyInk) },
              },
            ],
          },
  }
}

/** Flags as bars: an edge that holds against the ground, and the urgency's own strength in it. */
export function flagSeries(flags: readonly FlagBar[], where: Where, inks: Inks, leastDays: number): Series[] {
  return flags.flatMap(({ from, to, urgency, lane, says }) => {
    const bar = (color: string, width: number) => ({
      ...where,
      type: 'line',
      symbol: 'none',
      triggerLineEvent: true,
      name: says,
      lineStyle: { color, width, cap: 'butt' },
      data: [
        { value: [Math.min(from, to - leastDays), lane + 0.5], name: says },
        { value: [to, lane + 0.5], name: says },
      ],
    })
    const fill = inks.urgency[Math.max(0, urgencyRank[urgency] - 1)] ?? inks.urgencyEdge
    return [bar(inks.urgencyEdge, 9), bar(fill, 7)]
  })
}
