import { describe, expect, it } from 'vitest'
import { mannKendall } from '../../../lib/rules/statistics/mann-kendall.ts'

const rising = Object.freeze([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
const of = (values: readonly number[]) => {
  const test = mannKendall(values)
  if (!test.enough) throw new Error('enough values were given')
  return test
}

describe('mannKendall', () => {
  it('counts every pair of a straight rise', () => {
    const { s, variance, z, pRise } = of(rising)
    expect(s).toBe(45)
    expect(variance).toBe(125)
    expect(z).toBeCloseTo(44 / Math.sqrt(125), 12)
    expect(pRise).toBeLessThan(0.0001)
  })
  it('turns round with the series', () => {
    const up = of(rising)
    const down = of([...rising].reverse())
    expect(down.s).toBe(-up.s)
    expect(down.pFall).toBe(up.pRise)
    expect(down.pRise).toBeGreaterThan(0.999)
  })
  it('takes ties off the variance', () => {
    expect(of([1, 1, 3, 4, 5, 6, 7, 8, 9, 10]).variance).toBe(124)
  })
  it('finds no evidence either way where all values are equal', () => {
    expect(of(Array.from({ length: 12 }, () => 5))).toEqual({
      enough: true,
      s: 0,
      variance: 0,
      z: 0,
      pRise: 0.5,
      pFall: 0.5,
    })
  })
  it('holds -0 and 0 for equal', () => {
    const { s } = of([0, -0, 0, -0, 0, -0, 0, -0, 0, -0])
    expect(Object.is(s, 0)).toBe(true)
  })
  it('answers too few below 10 values', () => {
    expect(mannKendall([])).toEqual({ enough: false, have: 0, need: 10 })
    expect(mannKendall([1])).toEqual({ enough: false, have: 1, need: 10 })
    expect(mannKendall(rising.slice(0, 9))).toEqual({ enough: false, have: 9, need: 10 })
  })
  it('refuses values that are not finite', () => {
    expect(() => mannKendall([1, Number.NaN])).toThrow(RangeError)
    expect(() => mannKendall([...rising, Number.POSITIVE_INFINITY])).toThrow(RangeError)
  })
})
