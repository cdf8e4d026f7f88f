import { describe, expect, it } from 'vitest'
import {
  axesOf,
  axisOf,
  isShown,
  isWhole,
  labelEvery,
  labelledDays,
  RANGES,
  wholeOf,
  within,
  xOf,
} from '@/app/ui/timeline/axis.ts'
import { NOW } from '../fixtures/page.ts'

const now = Date.parse(NOW)
const zone = 'America/Denver'
const axis = axisOf(14, '2026-10-15', now, zone)

describe('the time axis', () => {
  it('ends with today, in whole days of the patient', () => {
    expect(axis).toEqual({ zone, first: '2026-11-11', count: 14, ahead: 0 })
    expect(axisOf(14, '2026-10-15', Date.parse('2026-11-24T06:30:00Z'), zone).first).toBe('2026-11-10')
  })
  it('reaches back no further than the placement, and never under 14 days', () => {
    expect(RANGES.map((range) => axisOf(range, '2026-10-15', now, zone).count)).toEqual([14, 30, 41, 41])
    expect(RANGES.map((range) => axisOf(range, '2026-11-23', now, zone).count)).toEqual([14, 14, 14, 14])
    expect(axisOf('placement', '2010-01-01', now, zone).count).toBe(730)
  })
  it('reaches back no further than the days that are here, and says what was wished for', () => {
    const of = (range: (typeof RANGES)[number], before: string | null) => {
      const { wanted, here } = axesOf(range, '2026-01-15', before, { now, zone, ahead: 0 })
      return [wanted.first, here.first]
    }
    expect(of(30, '2026-10-24')).toEqual(['2026-10-26', '2026-10-26'])
    expect(of(90, '2026-10-24')).toEqual(['2026-08-27', '2026-10-24'])
    expect(of('placement', '2026-10-24')).toEqual(['2026-01-15', '2026-10-24'])
    expect(of('placement', null)).toEqual(['2026-01-15', '2026-01-15'])
  })
  it('goes on past today where something is expected, by half of what was at most', () => {
    expect(axisOf(14, '2026-10-15', now, zone, 3).ahead).toBe(3)
    expect(axisOf(14, '2026-10-15', now, zone, 60).ahead).toBe(7)
  })
  it('places an instant by the patient’s clock, over a clock change too', () => {
    expect(xOf(axis, '2026-11-11T07:00:00Z')).toBe(0)
    expect(xOf(axis, '2026-11-24T19:00:00Z')).toBe(13.5)
    const fall = axisOf(14, '2026-10-01', Date.parse('2026-11-05T12:00:00Z'), zone)
    expect(xOf(fall, '2026-11-02T07:00:00Z') % 1).toBe(0)
    expect(isShown(axis, -0.01)).toBe(false)
  })
  it('is labelled sparsely, counted back from today', () => {
    for (const count of [1, 14, 30, 90, 365, 730]) expect(count / labelEvery(count)).toBeLessThanOrEqual(8)
    expect(labelledDays(axis, wholeOf(axis))).toEqual([1, 3, 5, 7, 9, 11, 13])
    expect(labelledDays(axis, { from: 4, to: 8 })).toEqual([4, 5, 6, 7])
  })
})

describe('what is looked at', () => {
  it('stays within the axis and is never under a day', () => {
    expect(within(axis, { from: -3, to: 4 })).toEqual({ from: 0, to: 7 })
    expect(within(axis, { from: 12, to: 20 })).toEqual({ from: 6, to: 14 })
    expect(within(axis, { from: 5, to: 5.2 })).toEqual({ from: 5, to: 6 })
    expect(within(axis, { from: 0, to: 90 })).toEqual({ from: 0, to: 14 })
  })
  it('is the whole where nothing is left out', () => {
    expect(isWhole(axis, wholeOf(axis))).toBe(true)
    expect(isWhole(axis, { from: 1, to: 14 })).toBe(false)
  })
})
