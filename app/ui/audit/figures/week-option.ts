import { unitText } from '@/lib/domain/figure-text.ts'
import type { Figure, FigureUnit } from '@/lib/domain/figures.ts'
import { dayMonth } from '@/lib/domain/local-time.ts'

/** The round numbers of an axis need no places of their own. */
const axisText = (value: number, unit: FigureUnit) =>
  value !== 0 && (unit === 'share' || unit === 'hours') ? unitText(value, unit) : String(value)

/** The colours of the page as it stands: light, dark or print. */
export type ChartInks = {
  ink: string
  ink2: string
  rule: string
  output: string
  face: string
  sheet: string
}

type Charted = Pick<Figure, 'weekly' | 'chart' | 'unit' | 'label'>

/**
 * Weeks as ECharts draws them: points with a line, the middle dashed, the limits of a control chart as steps. A week without a value
 * leaves a gap. A point beyond its limits is filled and larger: not told by colour.
 */
export function weekOption({ weekly, chart, unit, label }: Charted, inks: ChartInks) {
  const text = { color: inks.ink2, fontFamily: inks.face, fontSize: 12 }
  const values = weekly.map(({ value }) => value)
  const isBeyond = (i: number) => {
    const { value = null, lower = null, upper = null } = weekly[i] ?? {}
    return value !== null && ((upper !== null && value > upper) || (lower !== null && value < lower))
  }
  const limit = (name: 'lower' | 'upper') => ({
    type: 'line',
    name: name === 'lower' ? 'lower limit' : 'upper limit',
    step: 'middle',
    data: weekly.map((week) => week[name]),
    symbol: 'none',
    silent: true,
    lineStyle: { color: inks.ink2, width: 1.5, type: [2, 4] },
  })
  return {
    animation: false,
    textStyle: { fontFamily: inks.face },
    grid: { left: 56, right: 16, top: 12, bottom: 28 },
    tooltip: {
      trigger: 'axis',
      confine: true,
      backgroundColor: inks.sheet,
      borderColor: inks.rule,
      textStyle: { color: inks.ink, fontFamily: inks.face, fontSize: 12 },
      valueFormatter: (value: unknown) => (typeof value === 'number' ? unitText(value, unit) : 'none'),
    },
    xAxis: {
      type: 'category',
      data: weekly.map(({ week }) => dayMonth(week)),
      axisLabel: { ...text, hideOverlap: true },
      axisLine: { lineStyle: { color: inks.rule } },
      axisTick: { show: false },
    },
    yAxis: {
      type: 'value',
      min: 0,
      ...(unit === 'share' ? { max: 1, interval: 0.25 } : {}),
      splitNumber: 4,
      axisLabel: { ...text, formatter: (value: number) => axisText(value, unit) },
      splitLine: { lineStyle: { color: inks.rule } },
    },
    series: [
      {
        type: 'line',
        name: label,
        data: values.map((value, i) => ({
          value,
          symbolSize: isBeyond(i) ? 12 : 8,
          itemStyle: {
            color: isBeyond(i) ? inks.output : inks.sheet,
            borderColor: inks.output,
            borderWidth: 2,
          },
        })),
        symbol: 'circle',
        connectNulls: false,
        lineStyle: { color: inks.output, width: 2 },
        ...(chart.centre === null
          ? {}
          : {
              markLine: {
                symbol: 'none',
                silent: true,
                animation: false,
                label: { show: false },
                lineStyle: { color: inks.ink2, width: 1, type: 'dashed' },
                data: [{ yAxis: chart.centre }],
              },
            }),
      },
      ...(chart.kind === 'u-chart' ? [limit('upper'), limit('lower')] : []),
    ],
  }
}
