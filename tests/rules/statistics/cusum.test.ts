import { describe, expect, it } from 'vitest'
import { cusum } from '../../../lib/rules/statistics/cusum.ts'

const settings = Object.freeze({ target: 100, allowance: 5, decision: 20 })

describe('cusum', () => {
  it('sums what lies beyond the allowance, on each side, and never falls below 0', () => {
    const { high, low } = cusum(Object.freeze([110, 90, 90, 103]), settings)
    expect(high).toEqual([5, 0, 0, 0])
    expect(low).toEqual([0, 5, 10, 2])
  })
  it('signals above the decision limit, not on it', () => {
    expect(cusum([85, 85], settings).firstLow).toBeNull()
    expect(cusum([85, 85, 94], settings).firstLow).toBe(2)
    expect(cusum([115, 115, 106], settings).firstHigh).toBe(2)
  })
  it('goes on summing after a signal', () => {
    expect(cusum([60, 60], settings).low).toEqual([35, 70])
  })
  it('finds nothing in no value, and in values at the target', () => {
    expect(cusum([], settings)).toEqual({ high: [], low: [], firstHigh: null, firstLow: null })
    expect(cusum([100, 100], settings)).toMatchObject({ high: [0, 0], low: [0, 0] })
  })
  it('mirrors: what falls is low as what rises is high', () => {
    const values = [90, 120, 70]
    expect(cusum(values, settings).low).toEqual(
      cusum(
        values.map((x) => 200 - x),
        settings,
      ).high,
    )
  })
  it('treats -0 as 0 and gives no -0', () => {
    const chart = cusum([-0], { target: -0, allowance: 0, decision: 0 })
    expect(Object.is(chart.high[0], 0) && Object.is(chart.low[0], 0)).toBe(true)
  })
  it('refuses what is not finite and negative limits', () => {
    expect(() => cusum([Number.NaN], settings)).toThrow(RangeError)
    expect(() => cusum([1], { ...settings, target: Number.POSITIVE_INFINITY })).toThrow(RangeError)
    expect(() => cusum([1], { ...settings, allowance: -1 })).toThrow(RangeError)
    expect(() => cusum([1], { ...settings, decision: -1 })).toThrow(RangeError)
  })
})
