import { describe, expect, it } from 'vitest'
import { requireFinite } from '../../../lib/rules/statistics/input.ts'

describe('requireFinite', () => {
  it('lets finite numbers, -0 and nothing at all pass', () => {
    expect(() => requireFinite(Object.freeze([1, -0, 1e308]), 'values')).not.toThrow()
    expect(() => requireFinite([], 'values')).not.toThrow()
  })
  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    'names the place of %s',
    (bad) => {
      expect(() => requireFinite([1, 2, bad], 'volumes')).toThrow(RangeError)
      expect(() => requireFinite([1, 2, bad], 'volumes')).toThrow(`volumes[2] is ${bad}`)
    },
  )
})
