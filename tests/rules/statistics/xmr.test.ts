import { describe, expect, it } from 'vitest'
import { xmr } from '../../../lib/rules/statistics/xmr.ts'

describe('xmr', () => {
  it('puts the limits at 3 mean moving ranges / 1.128 from the mean', () => {
    const chart = xmr(Object.freeze([10, 12, 11]))
    if (!chart.enough) throw new Error('three values are enough')
    expect(chart.mean).toBeCloseTo(11, 12)
    expect(chart.meanMovingRange).toBeCloseTo(1.5, 12)
    expect(chart.upper).toBeCloseTo(11 + (3 * 1.5) / 1.128, 12)
    expect(chart.lower).toBeCloseTo(11 - (3 * 1.5) / 1.128, 12)
    expect(chart.upperMovingRange).toBeCloseTo(3.267 * 1.5, 12)
  })
  it('has no width where all values are equal', () => {
    expect(xmr([5, 5, 5])).toMatchObject({ enough: true, mean: 5, lower: 5, upper: 5, upperMovingRange: 0 })
  })
  it('depends on the order: the range is between neighbours', () => {
    const one = xmr([1, 2, 3, 4])
    const other = xmr([1, 4, 2, 3])
    expect(one.enough && other.enough && other.upper > one.upper).toBe(true)
  })
  it('is the same for a series and its reverse', () => {
    expect(xmr([4, 2, 7])).toEqual(xmr([7, 2, 4]))
  })
  it('answers too few for none and for one value', () => {
    expect(xmr([])).toEqual({ enough: false, have: 0, need: 2 })
    expect(xmr([3])).toEqual({ enough: false, have: 1, need: 2 })
  })
  it('counts -0 as 0', () => {
    expect(xmr([-0, -0])).toEqual(xmr([0, 0]))
  })
  it('refuses values that are not finite', () => {
    expect(() => xmr([1, Number.NaN])).toThrow(RangeError)
    expect(() => xmr([Number.NEGATIVE_INFINITY])).toThrow(RangeError)
  })
})
