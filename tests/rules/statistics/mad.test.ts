import { describe, expect, it } from 'vitest'
import { mad } from '../../../lib/rules/statistics/mad.ts'

describe('mad', () => {
  it('equals R: mad(c(1, 1, 2, 2, 4, 6, 9)) # 1.4826', () => {
    expect(mad(Object.freeze([1, 1, 2, 2, 4, 6, 9]))).toBeCloseTo(1.4826, 5)
  })
  it('is not moved by one wild value', () => {
    expect(mad([400, 410, 390, 405, 395, 40_000])).toBeLessThan(15)
  })
  it('is 0 for one value and for equal values', () => {
    expect(mad([7])).toBe(0)
    expect(mad([5, 5, 5])).toBe(0)
    expect(Object.is(mad([-0, 0]), 0)).toBe(true)
  })
  it('refuses an empty list and values that are not finite', () => {
    expect(() => mad([])).toThrow(RangeError)
    expect(() => mad([1, Number.NaN])).toThrow(RangeError)
  })
})
