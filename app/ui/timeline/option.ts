import type { EChartsCoreOption } from 'echarts/core'
import { addDays, dayMonth } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { urgencyRank } from '@/lib/domain/words.ts'
import { type Axis, labelEvery } from './axis.ts'
import { barText, bottomOf, type DayBar, type DayRow, dayRow, topOf } from './days.ts'
import { layoutOf, type Panel } from './layout.ts'
import type { Point, Tracks } from './tracks.ts'

/** The resolved colours of the tokens, and the hatch of a day that is not complete, which only a browser can draw. */
export type Inks = {
  ink: string
  ink2: string
  rule: string
  sheet: string
  output: string
  outputBefore: string
  outputEdge: string
  band: string
  bandEdge: string
  owed: string
  urgency: readonly [string, string, string, string]
  urgencyEdge: string
  urgencyInk: string
  face: string
  hatch: unknown
}

export type Timeline = { page: PatientPage; axis: Axis; tracks: Tracks; drains: readonly string[]; width: number }
type Series = Record<string, unknown>

/** A flag that has just opened is still wide enough to be seen. */
const LEAST_PX = 8
/** With days narrower than this, words beside points would run into each other. */
const LABEL_PX = 20

/** The whole chart as ECharts takes it. Pure: the same patient, axis, width and colours give the same picture. */
export function timelineOption({ page, axis, tracks, drains, width }: Timeline, inks: Inks): EChartsCoreOption {
  const { panels, left, right } = layoutOf(drains, tracks, width)
  const small = { color: inks.ink2, fontFamily: inks.face, fontSize: 12 }
  const places = new Map(panels.map((panel, i) => [panel.name, i]))
  const at = (name: string) => ({ xAxisIndex: places.get(name) ?? 0, yAxisIndex: places.get(name) ?? 0 })
  const rows = new Map(drains.map((drain) => [drain, dayRow(outputOf(page, drain)?.days ?? [], axis)]))
  const pxPerDay = (width - left - right) / axis.count

  return {
    animation: false,
    textStyle: { fontFamily: inks.face },
    grid: panels.map(({ top, height }) => ({ left, right, top, height })),
    title: panels.map(({ title, top, titleTop }) => ({ text: title, left: 0, top: titleTop ?? top, padding: 0, textStyle: { ...small, fontWeight: 'normal' } })),
    tooltip: { trigger: 'item', renderMode: 'richText', confine: true, textStyle: { color: inks.ink, fontFamily: inks.face, fontSize: 13 }, backgroundColor: inks.sheet, borderColor: inks.ink, formatter: ({ name }: { name: string }) => name },
    xAxis: panels.map((panel, i) => xAxis(panel, i, i === panels.length - 1, axis, inks)),
    yAxis: panels.map((panel, i) => yAxis(panel, i, rows, page, inks)),
    series: [
      ...drains.flatMap((drain) => outputSeries(page, drain, rows.get(drain) ?? { bars: [], unknown: [] }, at(`output ${drain}`), { axis, inks, pxPerDay })),
      ...(['flush', 'dressing', 'position', 'events', 'calls'] as const).map((name) =>
        pointSeries(name, pxPerDay >= LABEL_PX ? tracks[name] : tracks[name].map((point) => ({ ...point, label: '' })), at(name), inks),
      ),
      lineSeries('temperature', tracks.temperature, at('temperature'), inks, page.limits.feverC),
      lineSeries('pain', tracks.pain, at('pain'), inks, null),
      ...flagSeries(tracks, at('flags'), inks, LEAST_PX / pxPerDay),
    ],
  }
}

const outputOf = (page: PatientPage, drain: string) => page.assessment.drains.find((one) => one.drain === drain)

function xAxis({ name }: Panel, index: number, isLast: boolean, axis: Axis, inks: Inks): Series {
  const every = labelEvery(axis)
  return {
    type: 'value',
    gridIndex: index,
    min: 0,
    max: axis.count,
    interval: 1,
    show: isLast || name.startsWith('output'),
    axisLine: { show: true, onZero: true, lineStyle: { color: inks.rule } },
    axisTick: { show: false },
    splitLine: { show: false },
    axisLabel: isLast
      ? {
          color: inks.ink2,
          fontSize: 12,
          hideOverlap: true,
          align: 'left',
          // Labels stand at the beginning of their day, counted back from today.
          formatter: (x: number) => ((axis.count - 1 - x) % every === 0 && x < axis.count ? dayMonth(addDays(axis.first, x)) : ''),
        }
      : { show: false },
  }
}

function yAxis({ name, lanes = 1 }: Panel, gridIndex: number, rows: ReadonlyMap<string, DayRow>, page: PatientPage, inks: Inks): Series {
  const base = { type: 'value', gridIndex, axisLine: { show: false }, axisTick: { show: false }, splitLine: { show: false }, axisLabel: { show: false } }
  if (name.startsWith('output ')) {
    const drain = name.slice('output '.length)
    const row = rows.get(drain) ?? { bars: [], unknown: [] }
    const top = topOf([row], outputOf(page, drain)?.baselineMlPerDay ?? null)
    return { ...base, min: bottomOf(row), max: top, interval: top / 2, axisLabel: { color: inks.ink2, fontSize: 12, formatter: String }, splitLine: { show: true, lineStyle: { color: inks.rule, opacity: 0.6 } } }
  }
  if (name === 'temperature') return { ...base, min: 35.5, max: 40.5 }
  if (name === 'pain') return { ...base, min: 0, max: 10 }
  if (name === 'flags') return { ...base, min: 0, max: lanes, inverse: true }
  return { ...base, min: 0, max: 1 }
}

type Draw = { axis: Axis; inks: Inks; pxPerDay: number }
type Where = { xAxisIndex: number; yAxisIndex: number }

function outputSeries(page: PatientPage, drain: string, row: DayRow, where: Where, { axis, inks, pxPerDay }: Draw): Series[] {
  const usual = outputOf(page, drain)?.baselineMlPerDay ?? null
  const top = topOf([row], usual)
  const limits = (page.limits.drains[drain] ?? []).filter(({ mlPerDay }) => mlPerDay < top)
  const isRoomy = pxPerDay >= 34
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
            : bar.kind === 'last' ? { color: inks.output } : { color: inks.outputBefore, borderColor: inks.outputEdge, borderWidth: 1 },
        label: { show: labelled.includes(bar), ...barLabel(bar, isRoomy ? top : 0, inks), formatter: barText(bar), fontSize: 12 },
      })),
      markLine: {
        silent: true,
        symbol: 'none',
        animation: false,
        data: [
          ...(usual === null ? [] : [{ yAxis: usual, name: 'usual', lineStyle: { color: inks.bandEdge, type: 'solid', width: 1 }, label: { formatter: inTwoLines(`usual ${Math.round(usual)}`), position: 'end', color: inks.ink, fontSize: 12 } }]),
          ...limits.map(({ mlPerDay, says }) => ({ yAxis: mlPerDay, name: says, lineStyle: { color: inks.urgencyEdge, type: 'dashed', width: 1 }, label: { formatter: inTwoLines(says), position: 'end', color: inks.urgencyInk, fontSize: 12 } })),
        ],
      },
      ...(usual === null || usual <= 0
        ? {}
        : { markArea: { silent: true, itemStyle: { color: inks.band }, z: 0, data: [[{ yAxis: usual * 0.9 }, { yAxis: usual * 1.1 }]] } }),
    },
    unknownSeries(row, where, top, { axis, inks, pxPerDay }),
  ]
}

/** A bar's own number stands in it, where it has the height; else above it, on the sheet's own ground. */
function barLabel({ netMl, kind }: DayBar, top: number, inks: Inks): Series {
  if (top > 0 && netMl >= top * 0.12 && kind !== 'partial') return { position: 'insideTop', color: kind === 'last' ? inks.sheet : inks.ink }
  return { position: netMl < 0 ? 'bottom' : 'top', distance: 3, color: inks.ink, ...onSheet(inks) }
}

/** A level's words and its number, beside the chart. */
const inTwoLines = (says: string) => says.replace(/ (?=\d+$)/, '\n')

/** Words that a line would otherwise strike through. */
const onSheet = (inks: Inks): Series => ({ backgroundColor: inks.sheet, padding: [1, 2] })

/** Days of which nothing is known: a word where there is room, a dotted stub where there is none. */
function unknownSeries({ unknown }: DayRow, where: Where, top: number, { inks, pxPerDay }: Draw): Series {
  const words = (days: number) => (pxPerDay * days >= 62 ? 'not logged' : pxPerDay * days >= 34 ? 'not\nlogged' : '')
  return {
    ...where,
    type: 'scatter',
    symbolSize: 1,
    silent: true,
    itemStyle: { opacity: 0 },
    data: unknown.map(({ from, to }) => ({
      value: [(from + to) / 2, 0],
      name: 'not logged',
      label: { show: true, position: 'top', formatter: words(to - from) || '⋮', color: inks.ink2, fontSize: 12, lineHeight: 14 },
    })),
    markLine: {
      silent: true,
      symbol: 'none',
      data: unknown.flatMap(({ from, to }) => [[{ coord: [from + 0.15, top * 0.004] }, { coord: [to - 0.15, top * 0.004] }]]),
      lineStyle: { color: inks.ink2, type: 'dotted', width: 2 },
    },
  }
}

const toneOf = (tone: Point['tone'], inks: Inks) =>
  tone === 'alarm'
    ? { color: inks.sheet, borderColor: inks.urgencyEdge, borderWidth: 2 }
    : tone === 'staff' ? { color: inks.owed } : { color: inks.outputBefore, borderColor: inks.outputEdge, borderWidth: 1 }

const symbols = { flush: 'circle', dressing: 'rect', position: 'diamond', events: 'triangle', calls: 'rect' } as const

function pointSeries(name: keyof typeof symbols, points: readonly Point[], where: Where, inks: Inks): Series {
  return {
    ...where,
    type: 'scatter',
    symbol: symbols[name],
    symbolSize: 9,
    data: points.map(({ x, tone, label, says }, i) => ({
      value: [x, 0.5],
      name: says,
      itemStyle: toneOf(tone, inks),
      label: { show: label !== '', formatter: label, position: i === points.length - 1 && x > 0 ? 'left' : 'right', color: inks.ink, fontSize: 12, ...onSheet(inks) },
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

function lineSeries(name: 'temperature' | 'pain', points: readonly Point[], where: Where, inks: Inks, limit: number | null): Series {
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
      label: { show: label !== '', formatter: label, position: x > 1 ? 'left' : 'right', color: tone === 'alarm' ? inks.urgencyInk : inks.ink, fontSize: 12, ...onSheet(inks) },
    })),
    labelLayout: { hideOverlap: true },
    markLine:
      limit === null
        ? base(inks, 0)
        : {
            ...base(inks, 36),
            data: [{ yAxis: 36 }, { yAxis: limit, name: 'fever', lineStyle: { color: inks.urgencyEdge, type: 'dashed' }, label: { show: true, position: 'end', formatter: `fever ${limit}`, color: inks.urgencyInk, fontSize: 12 } }],
          },
  }
}

/** One thick line per flag, by urgency; a gap between two flags of one series keeps them apart. */
function flagSeries({ flags }: Tracks, where: Where, inks: Inks, least: number): Series[] {
  return flags.map(({ from, to, urgency, lane, says }) => ({
    ...where,
    type: 'line',
    symbol: 'none',
    triggerLineEvent: true,
    name: says,
    lineStyle: { color: inks.urgency[Math.max(0, urgencyRank[urgency] - 1)] ?? inks.urgencyEdge, width: 8, cap: 'butt' },
    data: [
      { value: [Math.min(from, to - least), lane + 0.5], name: says },
      { value: [to, lane + 0.5], name: says },
    ],
  }))
}
