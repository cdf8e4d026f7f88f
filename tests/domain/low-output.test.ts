import { describe, expect, it } from 'vitest'
import { isLow } from '../../lib/domain/low-output.ts'

/** Readings at hours from a common start. */
const at = (hours: number, volumeMl: number | null) =>
  Object.freeze({ at: new Date(Date.UTC(2026, 2, 1) + hours * 3_600_000).toISOString(), volumeMl })
const usual = Object.freeze([at(0, 400), at(24, 390), at(48, 410)])

describe('a low output', () => {
  it('is under half of the usual rate and at least 50 mL a day below it', () => {
    expect(isLow([at(72, 120)], usual)).toBe(true)
    expect(isLow([at(72, 199)], usual)).toBe(true)
    expect(isLow([at(72, 200)], usual)).toBe(false)
    const little = [at(0, 80), at(24, 80), at(48, 80)]
    expect(isLow([at(72, 35)], little)).toBe(false) // 45 mL a day below
    expect(isLow([at(72, 30)], little)).toBe(true)
  })

  it('is judged by the hours that it took', () => {
    expect(isLow([at(60, 200)], usual)).toBe(false) // 400 mL a day
    expect(isLow([at(96, 400)], usual)).toBe(false) // over two days: 200 mL a day
    expect(isLow([at(96, 390)], usual)).toBe(true)
  })

  it('is 10 mL or less in 8 hours, whatever is usual', () => {
    expect(isLow([at(56, 10)], usual)).toBe(true)
    expect(isLow([at(24, 20)], [at(0, 5)])).toBe(true)
    expect(isLow([at(24, 31)], [at(0, 5)])).toBe(false)
  })

  it('is not told from a stretch under 8 hours, nor from what was not measured', () => {
    expect(isLow([at(55, 0)], usual)).toBe(false)
    expect(isLow([at(72, null)], usual)).toBe(false)
    expect(isLow([], usual)).toBe(false)
  })

  it('is a zero where nothing is known of before', () => {
    expect(isLow([at(0, 0)], [])).toBe(true)
    expect(isLow([at(0, 5)], [])).toBe(false)
  })

  it('is the newest that was reported, in whatever order, itself known already or not', () => {
    expect(isLow([at(72, 120), at(60, 400)], usual)).toBe(false) // 120 mL in 12 hours
    expect(isLow([at(48, 100)], [at(48, 100), at(24, 390), at(0, 400)])).toBe(true)
  })
})
