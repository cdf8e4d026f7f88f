import { urgencyRank } from '@/lib/domain/words.ts'
import type { Shown } from './axis.ts'
import { boxWithin, drawn, type Inks, onSheet, type Series, type Where } from './series.ts'
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
  signs: 'circle',
  site: 'diamond',
  events: 'triangle',
  calls: 'rect',
} as const

/** How much room words have. */
export type Room = { isRoomy: boolean; pxPerDay: number; shown: Shown }

/** Words stand towards the middle. */
const sideOf = (x: number, { from, to }: Shown) => (x > from + (to - from) * 0.6 ? 'left' : 'right')

/** The line along a strip. */
const base = (inks: Inks, y: number): Series => ({
  silent: true,
  z: 0,
  symbol: 'none',
  label: { show: false },
  lineStyle: { color: inks.rule, type: 'solid', width: 1 },
  data: [{ yAxis: y }],
})

/** Where a point of one of several drains stands in its strip. */
const laneAt = (lane: number | null, lanes: number) => (lane === null ? 0.5 : 1 - (lane + 0.5) / lanes)

/** What happened, as points on a line. What is not as it should be is outlined and says so, where there is room. */
export function pointSeries(
  name: keyof typeof symbols,
  points: readonly Point[],
  { lanes, isRoomy, pxPerDay, shown }: Room & { lanes: number },
  where: Where,
  inks: Inks,
): Series[] {
  const size = isRoomy ? 9 : Math.min(6, Math.max(2.5, pxPerDay * 0.9))
  const held = (own: number) => (lanes > 1 ? Math.min(own, Math.max(4, 9 - lanes)) : own)
  const look = {
    ...where,
    type: 'scatter',
    silent: true,
    symbol: symbols[name],
  }
  return (['plain', 'staff', 'alarm'] as const).map((tone, i) => {
    const own = points.filter((point) => point.tone === tone)
    // What several drains have at one time is said once.
    const said = new Set<string>()
    return {
      ...look,
      id: `${name} ${tone}`,
      // Very many are drawn as one shape; those with words never are.
      symbolSize: tone === 'plain' ? held(size) : held(Math.max(6, size)),
      ...(tone === 'plain' ? { large: true, largeThreshold: 150 } : {}),
      itemStyle: { ...toneOf(tone, inks), opacity: 1 },
      data: own.map((point) => {
        const value = [point.x, laneAt(point.lane, lanes)]
        const words = `${point.date} ${point.time} ${point.label}`
        if (!isRoomy || point.label === '' || said.has(words)) return value
        said.add(words)
        return {
          value,
          label: {
            show: true,
            formatter: point.label,
            position: sideOf(point.x, shown),
            color: inks.ink,
            fontSize: 12,
            ...onSheet(inks),
          },
        }
      }),
      labelLayout: { hideOverlap: true },
      ...(i === 0 ? { markLine: base(inks, 0.5) } : {}),
    }
  })
}

/** What was measured of the patient, as a line; a value that is no longer usual is a mark of its own. */
export function lineSeries(
  name: 'temperature' | 'pain',
  points: readonly Point[],
  { limit, isRoomy, shown }: Room & { limit: number | null },
  where: Where,
  inks: Inks,
): Series[] {
  const ground = name === 'temperature' ? 36 : 0
  const marked = points.filter(({ label, tone }) => tone === 'alarm' || (isRoomy && label !== ''))
  return [
    {
      ...where,
      id: name,
      type: 'line',
      silent: true,
      symbol: 'circle',
      symbolSize: 5,
      showSymbol: isRoomy,
      showAllSymbol: true,
      lineStyle: { color: inks.ink, width: 1 },
      itemStyle: { color: inks.ink },
      data: points.map(({ x, value }) => [x, value]),
      markLine: {
        ...base(inks, ground),
        data: [
          { yAxis: ground },
          ...(limit === null
            ? []
            : [
                {
                  yAxis: limit,
                  name: 'fever',
                  lineStyle: { color: inks.urgencyEdge, type: 'dashed' },
                  label: {
                    ...{ show: true, formatter: `fever ${limit}`, position: 'end' },
                    ...{ color: inks.urgencyInk, fontSize: 12 },
                  },
                },
              ]),
        ],
      },
    },
    {
      ...where,
      id: `${name} marked`,
      type: 'scatter',
      silent: true,
      data: marked.map(({ x, value, tone, label }) => ({
        value: [x, value],
        symbolSize: tone === 'alarm' ? (isRoomy ? 9 : 6) : 5,
        itemStyle: { color: tone === 'alarm' ? inks.urgency[3] : inks.ink, opacity: 1 },
        label: {
          show: isRoomy,
          formatter: label,
          position: sideOf(x, shown),
          color: tone === 'alarm' ? inks.urgencyInk : inks.ink,
          fontSize: 12,
          ...onSheet(inks),
        },
      })),
      labelLayout: { hideOverlap: true },
    },
  ]
}

/** A flag that has just opened is still wide enough to be seen, px. */
const LEAST_PX = 8

/** Flags as bars: an edge that holds against the ground, and the urgency's own strength in it; upkeep is hollow. */
export function flagSeries(flags: readonly FlagBar[], where: Where, inks: Inks): Series {
  const lanes = Math.max(1, ...flags.map(({ lane }) => lane + 1))
  return drawn(
    where,
    flags.map(({ from, to, lane }) => [from, 1 - (lane + 0.5) / lanes, to]),
    (place, pen) => {
      const flag = flags[place.dataIndex]
      if (!flag) return null
      const [end, middle] = pen.coord([flag.to, pen.value(1)])
      const [start] = pen.coord([flag.from, 0])
      const reach = Math.min(8, place.coordSys.height / lanes - 1) / 2
      const box = boxWithin(place, [Math.min(start, end - LEAST_PX), middle - reach], [end, middle + reach])
      if (!box) return null
      const urgent = inks.urgency[Math.max(0, urgencyRank[flag.urgency] - 1)] ?? inks.urgencyEdge
      const fill = flag.isUpkeep ? inks.sheet : urgent
      return { type: 'rect', shape: box, style: { fill, stroke: inks.urgencyEdge, lineWidth: 1 } }
    },
    { id: 'flags', markLine: flags.length === 0 ? base(inks, 0.5) : undefined },
  )
}
