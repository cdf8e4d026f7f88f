import { describe, expect, it } from 'vitest'
import { axisOf } from '@/app/ui/timeline/axis.ts'
import { barText, bottomOf, coveredText, dayRow, dayVolume, topOf } from '@/app/ui/timeline/days.ts'
import type { OutputDay } from '@/app/ui/timeline/outputs.ts'
import { days, NOW } from '../fixtures/page.ts'

const axis = axisOf(14, '2026-10-15', Date.parse(NOW), 'America/Denver')
const known: OutputDay[] = days.map((day) => ({
  ...day,
  complete: day.coverage >= 0.9,
  atLeast: false,
  why: day.netMl === null ? 'not logged' : '',
}))
const one = (part: Partial<OutputDay>): OutputDay => ({
  ...{ date: '2026-11-20', netMl: 100, coverage: 1, complete: true, hours: 24, atLeast: false, why: '' },
  ...part,
})

describe('the days of a drain', () => {
  const row = dayRow(known, axis)
  it('an unknown day is a run of its own, never a zero', () => {
    expect(row.unknown).toEqual([{ from: 6, to: 7, why: 'not logged' }])
    expect(row.bars).toHaveLength(13)
    expect(row.bars.some(({ netMl }) => netMl === 0)).toBe(false)
  })
  it('runs of unknown days are one, as far as they have one reason', () => {
    const blank = known.map((day, i) =>
      i > 3 && i < 9 ? { ...day, netMl: null, why: i < 6 ? 'not logged' : 'capped' } : day,
    )
    expect(dayRow(blank, axis).unknown).toEqual([
      { from: 4, to: 6, why: 'not logged' },
      { from: 6, to: 9, why: 'capped' },
    ])
  })
  it('today is so far, an earlier half-known day in part, each with the hours that are known', () => {
    expect(row.bars.map(barText).slice(-2)).toEqual(['210', '35 so far\n7/24 h'])
    const half = known.map((day, i) => (i === 2 ? { ...day, coverage: 0.5, complete: false } : day))
    expect(dayRow(half, axis).bars.map(barText)[2]).toBe('390 in part\n12/24 h')
  })
  it('a day that has hardly begun is under an hour', () => {
    const [bar] = dayRow([one({ date: '2026-11-24', netMl: 5, coverage: 0.01, complete: false })], axis).bars
    expect(bar && barText(bar)).toBe('5 so far\n<1/24 h')
  })
  it('a day of a clock change has its own hours', () => {
    expect(coveredText({ coverage: 0.4, hours: 25 })).toBe('10 of 25 h')
    expect(coveredText({ coverage: 0.01, hours: 23 })).toBe('under 1 of 23 h')
  })
  it('a day of a full bag is at least so much', () => {
    expect(dayRow([one({ netMl: 600, atLeast: true })], axis).bars.map(barText)).toEqual(['≥ 600'])
    expect(dayVolume(one({ netMl: 600, atLeast: true }), false)).toBe('at least 600 mL')
    expect(dayVolume(one({ coverage: 0.5, complete: false }), false)).toBe(
      '100 mL in part, 12 of 24 h covered',
    )
    expect(dayVolume(one({ netMl: null, why: 'capped' }), false)).toBe('capped')
    expect(dayVolume(one({ netMl: 0 }), false)).toBe('0 mL')
    expect(dayVolume(one({ netMl: null, why: 'not logged' }), true)).toBe('nothing yet')
  })
  it('days outside of the axis are left out', () => {
    expect(dayRow([one({ date: '2026-11-10' })], axis)).toEqual({ bars: [], unknown: [] })
  })
  it('the scale holds everything, and what came back negative', () => {
    expect(topOf([row], 410)).toBe(500)
    expect(topOf([], null)).toBe(10)
    expect(topOf([row], 410, [700])).toBe(800)
    expect(bottomOf(row)).toBe(0)
    expect(bottomOf(dayRow([one({ netMl: -30 })], axis))).toBeLessThan(-30)
  })
})
