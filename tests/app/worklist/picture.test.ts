import { describe, expect, it } from 'vitest'
import { PICTURE, pictureOf, pictureText } from '@/app/ui/worklist/picture.ts'
import { days } from '../fixtures/page.ts'

describe('the small picture of 14 days', () => {
  it('has a stub for an unknown day, never a bar of no height', () => {
    const { bars, unknown } = pictureOf(days, 410, 0.9)
    expect(bars).toHaveLength(13)
    expect(unknown).toHaveLength(1)
  })
  it('marks the last complete day and the day that is not over', () => {
    expect(
      pictureOf(days, 410, 0.9)
        .bars.map(({ kind }) => kind)
        .slice(-3),
    ).toEqual(['before', 'last', 'partial'])
  })
  it('stays within its frame, whatever comes', () => {
    for (const netMl of [0, -40, 3, 100_000]) {
      const { bars, zero } = pictureOf(
        [...days.slice(1), { date: '2026-11-25', netMl, coverage: 1, hours: 24 }],
        410,
        0.9,
      )
      for (const { x, y, width, height } of bars) {
        expect(x).toBeGreaterThanOrEqual(0)
        expect(x + width).toBeLessThanOrEqual(PICTURE.width)
        expect(y).toBeGreaterThanOrEqual(0)
        expect(y + height).toBeLessThanOrEqual(PICTURE.height + 1)
      }
      expect(zero).toBeLessThanOrEqual(PICTURE.height)
    }
  })
  it('a zero is a bar that can be seen, and what came back negative goes below the line', () => {
    const { bars, zero } = pictureOf(
      [
        { date: '2026-11-23', netMl: 0, coverage: 1, hours: 24 },
        { date: '2026-11-24', netMl: -20, coverage: 1, hours: 24 },
      ],
      null,
      0.9,
    )
    expect(bars[0]?.height).toBe(1)
    expect(bars[1]?.y).toBe(zero)
  })
  it('takes a day for complete from where the clinic does', () => {
    const most = [{ date: '2026-11-23', netMl: 300, coverage: 0.8, hours: 24 }]
    expect(pictureOf(most, null, 0.9).bars.map(({ kind }) => kind)).toEqual(['partial'])
    expect(pictureOf(most, null, 0.8).bars.map(({ kind }) => kind)).toEqual(['last'])
    expect(pictureText('Left kidney', most, null, 0.9)).toContain('300 so far')
    expect(pictureText('Left kidney', most, null, 0.8)).toContain('300;')
  })
  it('puts few days at the right', () => {
    const { bars } = pictureOf(days.slice(-1), null, 0.9)
    expect(bars[0]?.x).toBeGreaterThan(PICTURE.width - 12)
  })
  it('is nothing for no days', () => {
    expect(pictureOf([], null, 0.9)).toMatchObject({ bars: [], unknown: [], band: null })
    expect(pictureText('Left kidney', [], null, 0.9)).toBe('Left kidney: nothing logged yet')
  })
  it('says the same in words', () => {
    expect(pictureText('Left kidney', days.slice(5, 8).concat(days.slice(-1)), 410, 0.9)).toBe(
      'Left kidney: net output in mL a day from 16 Nov: 405, not known, 420, 35 so far; usual 410',
    )
  })
})
