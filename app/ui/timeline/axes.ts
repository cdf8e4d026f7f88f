import { addDays, dayMonth } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { type Axis, labelEvery } from './axis.ts'
import { bottomOf, type DayRow, topOf } from './days.ts'
import type { Panel } from './layout.ts'
import type { Inks, Series } from './series.ts'

/** The time axis of one strip. All are the same; the days' names stand under the last. */
export function xAxis({ name }: Panel, index: number, isLast: boolean, axis: Axis, inks: Inks): Series {
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
          formatter: (x: number) =>
            (axis.count - 1 - x) % every === 0 && x < axis.count ? dayMonth(addDays(axis.first, x)) : '',
        }
      : { show: false },
  }
}

/** The scale of one strip. */
export function yAxis(
  { name, lanes = 1 }: Panel,
  gridIndex: number,
  rows: ReadonlyMap<string, DayRow>,
  page: PatientPage,
  inks: Inks,
): Series {
  const base = {
    type: 'value',
    gridIndex,
    axisLine: { show: false },
    axisTick: { show: false },
    splitLine: { show: false },
    axisLabel: { show: false },
  }
  if (name.startsWith('output ')) {
    const drain = name.slice('output '.length)
    const row = rows.get(drain) ?? { bars: [], unknown: [] }
    const top = topOf(
      [row],
      page.assessment.drains.find((one) => one.drain === drain)?.baselineMlPerDay ?? null,
    )
    return {
      ...base,
      min: bottomOf(row),
      max: top,
      interval: top / 2,
      axisLabel: { color: inks.ink2, fontSize: 12, formatter: String },
      splitLine: { show: true, lineStyle: { color: inks.rule, opacity: 0.6 } },
    }
  }
  if (name === 'temperature') return { ...base, min: 35.5, max: 40.5 }
  if (name === 'pain') return { ...base, min: 0, max: 10 }
  if (name === 'flags') return { ...base, min: 0, max: lanes, inverse: true }
  return { ...base, min: 0, max: 1 }
}
