import type { EChartsCoreOption } from 'echarts/core'
import { type Scale, xAxis, yAxis } from './axes.ts'
import { ROOMY_DAY_PX } from './bar-shapes.ts'
import { newestText } from './day-text.ts'
import { bottomOf, dayRow, topOf } from './days.ts'
import { courseSeries, projectionSeries, slowSeries } from './extra-series.ts'
import { areDense, type Layout, layoutOf, outputName, SLIDER_HEIGHT } from './layout.ts'
import { outputSeries } from './output-series.ts'
import { courseOf, type Picture, slowOf } from './picture.ts'
import { pointerText } from './pointer-text.ts'
import type { Inks, Series } from './series.ts'
import { flagSeries, lineSeries, pointSeries } from './track-series.ts'

/** With days narrower than this, words beside points would run into each other. */
const LABEL_PX = 20

/** Where the strips of a picture stand, at a width in pixels. */
export function placesOf(picture: Picture, width: number): Layout {
  const { outputs, tracks, shown } = picture
  const lanes = {
    flagLanes: Math.max(0, ...tracks.flags.map(({ lane }) => lane + 1)),
    lanes: tracks.lanes,
  }
  const { left, right } = layoutOf([], lanes, width)
  const isRoomy = (width - left - right) / (shown.to - shown.from) >= ROOMY_DAY_PX
  const titles = outputs.map((output) => ({
    id: output.id,
    title: areDense(outputs)
      ? output.label
      : outputs.length > 1
        ? [output.label, newestText(picture, output)].filter(Boolean).join(' · ')
        : isRoomy
          ? ''
          : newestText(picture, output),
  }))
  return layoutOf(titles, lanes, width)
}

/** The whole chart as ECharts takes it. Pure: the same picture, width and colours give the same chart. */
export function timelineOption(picture: Picture, width: number, inks: Inks): EChartsCoreOption {
  const { axis, shown, outputs, tracks } = picture
  const { panels, left, right, sliderTop } = placesOf(picture, width)
  const small = { color: inks.ink2, fontFamily: inks.face, fontSize: 12 }
  const places = new Map(panels.map((panel, i) => [panel.name, i]))
  const at = (name: string) => ({ xAxisIndex: places.get(name) ?? 0, yAxisIndex: places.get(name) ?? 0 })
  const pxPerDay = (width - left - right) / (shown.to - shown.from)
  const strips = outputs.map((output) => {
    const row = dayRow(output.days, axis)
    const name = outputName(output.id)
    const height = panels.find((panel) => panel.name === name)?.height ?? 0
    const top = topOf([row], output.usual, othersOf(picture, output))
    return { output, name, row, top, bottom: bottomOf(row), height, pxPerDay }
  })
  const scales = new Map<string, Scale>(strips.map(({ name, top, bottom }) => [name, { top, bottom }]))
  const room = { isRoomy: pxPerDay >= LABEL_PX, pxPerDay, shown }
  const isDense = areDense(outputs)
  const axes = panels.map((_, i) => i)
  const temperatures = tracks.temperature.flatMap(({ value }) => value ?? [])
  const zoom = { xAxisIndex: axes, filterMode: 'none', startValue: shown.from, endValue: shown.to }

  return {
    animation: false,
    textStyle: { fontFamily: inks.face },
    // The layout has counted with the words beside and below: ECharts need not measure them.
    grid: panels.map(({ top, height }) => ({ left, right, top, height, outerBoundsMode: 'none' })),
    title: panels.map(({ name, title, titleTop }) => ({
      text: title,
      left: scales.has(name) && !isDense ? left + 2 : 0,
      top: titleTop,
      padding: 0,
      textStyle: scales.has(name)
        ? {
            ...small,
            color: inks.ink,
            fontWeight: 'normal',
            ...(isDense ? { width: left - 4, overflow: 'truncate' } : {}),
          }
        : { ...small, fontWeight: 'normal' },
    })),
    axisPointer: { link: [{ xAxisIndex: 'all' }] },
    tooltip: {
      trigger: 'axis',
      confine: true,
      transitionDuration: 0,
      axisPointer: {
        axis: 'x',
        type: 'line',
        snap: false,
        animation: false,
        label: { show: false },
        lineStyle: { color: inks.ink, width: 1, type: 'solid' },
      },
      formatter: (given: unknown) => pointerText(picture, pointedAt(given)),
    },
    dataZoom: [
      {
        ...zoom,
        type: 'inside',
        minValueSpan: 1,
        zoomOnMouseWheel: 'ctrl',
        moveOnMouseMove: 'shift',
        moveOnMouseWheel: false,
        preventDefaultMouseMove: false,
      },
      {
        ...zoom,
        type: 'slider',
        minValueSpan: 1,
        ...{ left, right, top: sliderTop, height: SLIDER_HEIGHT },
        ...{ showDetail: false, showDataShadow: false, brushSelect: false },
        backgroundColor: inks.sheet,
        borderColor: inks.rule,
        fillerColor: inks.band,
        handleStyle: { color: inks.sheet, borderColor: inks.outputEdge },
        moveHandleSize: 0,
      },
    ],
    xAxis: panels.map((panel, i) => xAxis(panel, i, i === panels.length - 1, { axis, shown, inks })),
    yAxis: panels.map((panel, i) => yAxis(panel, i, scales, temperatures, inks)),
    series: [
      ...strips.flatMap((strip) => {
        const { output, name } = strip
        const course = courseOf(picture, output)
        const slow = slowOf(picture, output)
        return [
          ...(course ? [courseSeries(course, output, axis, at(name), inks)] : []),
          ...outputSeries(strip, at(name), inks),
          ...(slow ? slowSeries(slow, output, axis, at(name), inks) : []),
          ...projectionSeries(output, axis, at(name), inks),
        ]
      }),
      ...(['flush', 'dressing', 'signs', 'site', 'events', 'calls'] as const).flatMap((name) =>
        pointSeries(name, tracks[name], { ...room, lanes: tracks.lanes }, at(name), inks),
      ),
      ...lineSeries(
        'temperature',
        tracks.temperature,
        { ...room, limit: picture.feverC },
        at('temperature'),
        inks,
      ),
      ...lineSeries('pain', tracks.pain, { ...room, limit: null }, at('pain'), inks),
      flagSeries(tracks.flags, at('flags'), inks),
      ...axes.map((i) => anchor(i, axis.ahead > 0 && i < outputs.length ? picture.nowX : null, inks)),
    ]
      .filter(isSeen)
      // The pointer changes nothing but itself.
      .map((one) => ({ ...one, emphasis: { disabled: true } })),
  }
}

/** Whether there is anything of a series: what is empty costs time all the same. */
const isSeen = ({ data, markLine, markArea }: Series): boolean =>
  [data, (markLine as Series | undefined)?.data, markArea].some((one) =>
    Array.isArray(one) ? one.length > 0 : one !== undefined,
  )

/** What the scale must hold besides the bars. */
function othersOf(picture: Picture, output: Picture['outputs'][number]): number[] {
  return [
    ...(slowOf(picture, output)?.chart?.days ?? []).map(({ averageMl }) => averageMl),
    ...(courseOf(picture, output)?.days ?? []).map(({ q3 }) => q3),
    ...(output.projection ? output.limits : []).map(({ mlPerDay, side }) =>
      side === 'below' ? mlPerDay : 0,
    ),
  ]
}

/** A point that is never seen, so that the pointer finds something on every strip; with the line of now, where days follow it. */
const anchor = (i: number, nowX: number | null, inks: Inks): Series => ({
  id: `anchor ${i}`,
  type: 'scatter',
  xAxisIndex: i,
  yAxisIndex: i,
  silent: true,
  symbolSize: 0,
  itemStyle: { opacity: 0 },
  data: [[0, 0]],
  ...(nowX === null
    ? {}
    : {
        markLine: {
          silent: true,
          symbol: 'none',
          lineStyle: { color: inks.ink2, type: 'solid', width: 1 },
          label: {
            show: i === 0,
            formatter: 'now',
            position: 'end',
            color: inks.ink2,
            fontSize: 12,
            distance: 1,
          },
          data: [{ xAxis: nowX }],
        },
      }),
})

/** Where the pointer is on the axis, as ECharts tells it. */
function pointedAt(given: unknown): number {
  const first = (Array.isArray(given) ? given[0] : given) as { axisValue?: unknown } | undefined
  return Number(first?.axisValue ?? 0)
}
