import { describe, expect, it } from 'vitest'
import { median } from '../../../lib/rules/statistics/median.ts'

describe('median', () => {
  it('takes the middle value, and the mean of the middle two of an even number', () => {
    expect(median(Object.freeze([410, 380, 400]))).toBe(400)
    expect(median(Object.freeze([4, 1, 3, 2]))).toBe(2.5)
  })
  it('is the value itself for one value, and for equal values', () => {
    expect(median([7])).toBe(7)
    expect(median([5, 5, 5, 5])).toBe(5)
  })
  it('takes net output as it stands, negative too', () => {
    expect(median([-20, 30, -5])).toBe(-5)
  })
  it('gives 0, never -0', () => {
    expect(Object.is(median([-0]), 0)).toBe(true)
  })
  it('does not care about the order, reversed included', () => {
    expect(median([9, 7, 5, 3, 1])).toBe(median([1, 3, 5, 7, 9]))
  })
  it('leaves its input as it was', () => {
    const values = [3, 1, 2]
    median(values)
    expect(values).toEqual([3, 1, 2])
  })
  it('refuses an empty list and values that are not finite', () => {
    expect(() => median([])).toThrow(RangeError)
    expect(() => median([1, Number.NaN])).toThrow(RangeError)
    expect(() => median([1, Number.POSITIVE_INFINITY])).toThrow(RangeError)
  })
})
