import type { EChartsCoreOption } from 'echarts/core'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { xAxis, yAxis } from './axes.ts'
import type { Axis } from './axis.ts'
import { dayRow } from './days.ts'
import { layoutOf } from './layout.ts'
import { outputSeries } from './output-series.ts'
import type { Inks } from './series.ts'
import { flagSeries, lineSeries, pointSeries } from './track-series.ts'
import type { Tracks } from './tracks.ts'

export type Timeline = {
  page: PatientPage
  axis: Axis
  tracks: Tracks
  drains: readonly string[]
  width: number
}

/** A flag that has just opened is still wide enough to be seen. */
const LEAST_PX = 8
/** With days narrower than this, words beside points would run into each other. */
const LABEL_PX = 20

/** The whole chart as ECharts takes it. Pure: the same patient, axis, width and colours give the same picture. */
export function timelineOption(
  { page, axis, tracks, drains, width }: Timeline,
  inks: Inks,
): EChartsCoreOption {
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
    title: panels.map(({ title, top, titleTop }) => ({
      text: title,
      left: 0,
      top: titleTop ?? top,
      padding: 0,
      textStyle: { ...small, fontWeight: 'normal' },
    })),
    tooltip: {
      trigger: 'item',
      renderMode: 'richText',
      confine: true,
      textStyle: { color: inks.ink, fontFamily: inks.face, fontSize: 13 },
      backgroundColor: inks.sheet,
      borderColor: inks.ink,
      formatter: ({ name }: { name: string }) => name,
    },
    xAxis: panels.map((panel, i) => xAxis(panel, i, i === panels.length - 1, axis, inks)),
    yAxis: panels.map((panel, i) => yAxis(panel, i, rows, page, inks)),
    series: [
      ...drains.flatMap((drain) =>
        outputSeries(
          {
            row: rows.get(drain) ?? { bars: [], unknown: [] },
            usual: outputOf(page, drain)?.baselineMlPerDay ?? null,
            limits: page.limits.drains[drain] ?? [],
          },
          at(`output ${drain}`),
          { inks, pxPerDay },
        ),
      ),
      ...(['flush', 'dressing', 'position', 'events', 'calls'] as const).map((name) =>
        pointSeries(
          name,
          pxPerDay >= LABEL_PX ? tracks[name] : tracks[name].map((point) => ({ ...point, label: '' })),
          at(name),
          inks,
        ),
      ),
      lineSeries('temperature', tracks.temperature, at('temperature'), inks, page.limits.feverC),
      lineSeries('pain', tracks.pain, at('pain'), inks, null),
      ...flagSeries(tracks.flags, at('flags'), inks, LEAST_PX / pxPerDay),
    ],
  }
}

const outputOf = (page: PatientPage, drain: string) =>
  page.assessment.drains.find((one) => one.drain === drain)
