import { dayMonth } from '@/lib/domain/local-time.ts'
import { type Axis, dateAt, labelledDays, type Shown } from './axis.ts'
import { isOutput, type Panel } from './layout.ts'
import type { Inks, Series } from './series.ts'

/** A lower strip has no numbers at its scale. */
const LABELLED_PX = 30

export type Scale = { top: number; bottom: number }

/** The time axis of one strip. All are the same; the days' names stand under the last. */
export function xAxis(
  panel: Panel,
  index: number,
  isLast: boolean,
  { axis, shown, inks }: { axis: Axis; shown: Shown; inks: Inks },
): Series {
  return {
    type: 'value',
    gridIndex: index,
    min: 0,
    max: axis.count + axis.ahead,
    show: isLast || isOutput(panel),
    axisLine: { show: true, onZero: true, lineStyle: { color: inks.rule } },
    axisTick: { show: false },
    splitLine: { show: false },
    axisLabel: isLast
      ? {
          color: inks.ink2,
          fontSize: 12,
          hideOverlap: true,
          // Labels stand at the beginning of their day.
          align: 'left',
          customValues: labelledDays(axis, shown),
          formatter: (x: number) => dayMonth(dateAt(axis, x)),
        }
      : { show: false },
    axisPointer: { show: true },
  }
}

/** What temperatures are drawn on: what is common, and farther where somebody was colder or hotter. */
const temperatureScale = (values: readonly number[]) => ({
  min: Math.min(35.5, ...values.map((value) => value - 0.3)),
  max: Math.max(40.5, ...values.map((value) => value + 0.3)),
})

/** The scale of one strip; `temperatures` are those that it must hold. */
export function yAxis(
  panel: Panel,
  gridIndex: number,
  scales: ReadonlyMap<string, Scale>,
  temperatures: readonly number[],
  inks: Inks,
): Series {
  const base = {
    type: 'value',
    gridIndex,
    axisLine: { show: false },
    axisTick: { show: false },
    splitLine: { show: false },
    axisLabel: { show: false },
    axisPointer: { show: false },
  }
  const scale = scales.get(panel.name)
  if (scale) {
    const { top, bottom } = scale
    return {
      ...base,
      min: bottom,
      max: top,
      interval: panel.height < 60 ? top : top / 2,
      axisLabel:
        panel.height < LABELLED_PX ? { show: false } : { color: inks.ink2, fontSize: 12, formatter: String },
      splitLine: { show: true, lineStyle: { color: inks.rule, opacity: 0.6 } },
    }
  }
  if (panel.name === 'temperature') return { ...base, ...temperatureScale(temperatures) }
  if (panel.name === 'pain') return { ...base, min: 0, max: 10 }
  return { ...base, min: 0, max: 1 }
}
