import { describe, expect, it } from 'vitest'
import { atLeast, atMost, less, more } from '../../lib/rules/compare.ts'

const third = 0.1 + 0.2 // 0.30000000000000004

describe('comparisons of sums', () => {
  it('take equal for equal, whatever the last bits say', () => {
    expect([less(0.3, third), more(third, 0.3), atMost(third, 0.3), atLeast(0.3, third)]).toEqual([
      false,
      false,
      true,
      true,
    ])
  })
  it('tell apart what anybody could measure', () => {
    expect([less(9.99, 10), more(10.01, 10), atMost(10.01, 10), atLeast(9.99, 10)]).toEqual([
      true,
      true,
      false,
      false,
    ])
  })
  it('know −0, and what is not a number is never over or under anything', () => {
    expect([less(-0, 0), atMost(-0, 0), atLeast(-0, 0)]).toEqual([false, true, true])
    for (const compare of [less, more, atMost, atLeast]) expect(compare(Number.NaN, 1)).toBe(false)
  })
})
