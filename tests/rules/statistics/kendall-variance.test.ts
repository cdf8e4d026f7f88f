import { describe, expect, it } from 'vitest'
import { kendallVariance } from '../../../lib/rules/statistics/kendall-variance.ts'

describe('kendallVariance', () => {
  it('is n(n - 1)(2n + 5) / 18 without ties, in any order', () => {
    expect(kendallVariance(Object.freeze([1, 2, 3]))).toBeCloseTo(66 / 18, 12)
    expect(kendallVariance([3, 2, 1])).toBeCloseTo(66 / 18, 12)
  })
  it('takes a tied pair off', () => {
    expect(kendallVariance([1, 1, 2])).toBeCloseTo((66 - 18) / 18, 12)
  })
  it('takes ties of both coordinates off', () => {
    expect(kendallVariance([1, 1, 2], [5, 6, 6])).toBeCloseTo((66 - 36) / 18, 12)
  })
  it('is 0 for none, one and equal values, and never negative', () => {
    expect(kendallVariance([])).toBe(0)
    expect(kendallVariance([4])).toBe(0)
    expect(kendallVariance([5, 5, 5])).toBe(0)
    expect(kendallVariance([5, 5, 5], [1, 1, 1])).toBe(0)
  })
  it('holds -0 and 0 for equal', () => {
    expect(kendallVariance([0, -0, 1])).toBe(kendallVariance([0, 0, 1]))
  })
})
