import { expect, it } from 'vitest'
import { weekOption } from '../../../app/ui/audit/figures/week-option.ts'
import { hoursText, intervalText, numberText, percentText } from '../../../lib/domain/figure-text.ts'
import type { FigureWeek } from '../../../lib/domain/figures.ts'

const inks = { ink: '#1', ink2: '#2', rule: '#3', output: '#4', sheet: '#5', face: 'face' }
const week = (day: string, value: number | null, upper: number | null = 9): FigureWeek => ({
  week: day,
  numerator: 1,
  denominator: 2,
  value,
  lower: upper === null ? null : 1,
  upper,
})

it('draws a point a week, larger and filled beyond the limits, and a gap where there is none', () => {
  const { series, xAxis } = weekOption(
    {
      label: 'Flags',
      unit: 'per-1000-days',
      weekly: [week('2026-03-02', 4), week('2026-03-09', null, null), week('2026-03-16', 10)],
      chart: { kind: 'u-chart', centre: 5, signals: [] },
    },
    inks,
  )
  expect(xAxis.data).toEqual(['2 Mar', '9 Mar', '16 Mar'])
  expect(series[0]?.data).toMatchObject([
    { value: 4, symbolSize: 8, itemStyle: { color: '#5' } },
    { value: null },
    { value: 10, symbolSize: 12, itemStyle: { color: '#4' } },
  ])
  expect(series.slice(1).map(({ data }) => data)).toEqual([
    [9, null, 9],
    [1, null, 1],
  ])
})

it('draws shares from nothing to all, without limits', () => {
  const option = weekOption(
    {
      label: 'Share',
      unit: 'share',
      weekly: [week('2026-03-02', 0.5, null)],
      chart: { kind: 'run-chart', centre: 0.5, signals: [] },
    },
    inks,
  )
  expect(option.yAxis).toMatchObject({ min: 0, max: 1 })
  expect(option.series).toHaveLength(1)
})

it('writes numbers as a person reads them', () => {
  expect([0, 0.004, 0.3082, 1].map(percentText)).toEqual(['0%', '0.4%', '31%', '100%'])
  expect([0.2, 1.5, 2, 9.99, 50].map(hoursText)).toEqual([
    '12 min',
    '1 h 30 min',
    '2 h',
    '9 h 59 min',
    '50 h',
  ])
  expect([0.456, 12.34, 1234.5].map(numberText)).toEqual(['0.46', '12.3', '1,235'])
  expect(intervalText({ low: 0.26, high: 0.37 }, 'share')).toBe('26% to 37%')
  expect(intervalText({ low: 2, high: null }, 'hours')).toBe('from 2 h')
  expect(intervalText({ low: null, high: null }, 'hours')).toBeNull()
})
