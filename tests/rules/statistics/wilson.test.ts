import { describe, expect, it } from 'vitest'
import { wilson } from '../../../lib/rules/statistics/wilson.ts'

describe('wilson', () => {
  it('stays within 0 and 1, and touches them only at none and all', () => {
    expect(wilson(0, 20)).toMatchObject({ share: 0, low: 0 })
    expect(wilson(20, 20)).toMatchObject({ share: 1, high: 1 })
    const one = wilson(1, 2)
    expect(one.enough && one.low > 0 && one.high < 1).toBe(true)
  })
  it('mirrors: successes as failures', () => {
    const a = wilson(3, 10)
    const b = wilson(7, 10)
    if (!a.enough || !b.enough) throw new Error('ten trials are enough')
    expect(a.low).toBeCloseTo(1 - b.high, 12)
    expect(a.high).toBeCloseTo(1 - b.low, 12)
  })
  it('is wider at a higher level and narrower with more trials', () => {
    const width = (...given: Parameters<typeof wilson>) => {
      const interval = wilson(...given)
      return interval.enough ? interval.high - interval.low : Number.NaN
    }
    expect(width(5, 10, 99)).toBeGreaterThan(width(5, 10, 95))
    expect(width(50, 100)).toBeLessThan(width(5, 10))
  })
  it('answers too few for no trial', () => {
    expect(wilson(0, 0)).toEqual({ enough: false, have: 0, need: 1 })
  })
  it('gives no -0', () => {
    const none = wilson(-0, 5)
    expect(none.enough && Object.is(none.share, 0)).toBe(true)
  })
  it.each([
    [-1, 5],
    [6, 5],
    [1.5, 5],
    [1, Number.NaN],
    [1, Number.POSITIVE_INFINITY],
  ])('refuses %d of %d', (successes, trials) => {
    expect(() => wilson(successes, trials)).toThrow(RangeError)
  })
})
