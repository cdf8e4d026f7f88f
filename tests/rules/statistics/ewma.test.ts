import { describe, expect, it } from 'vitest'
import { ewma } from '../../../lib/rules/statistics/ewma.ts'

const settings = Object.freeze({ target: 50, sigma: 2, lambda: 0.2, width: 3 })

describe('ewma', () => {
  it('starts from the target and moves by lambda of the distance', () => {
    const { averages } = ewma(Object.freeze([60, 60]), settings)
    expect(averages[0]).toBeCloseTo(52, 12)
    expect(averages[1]).toBeCloseTo(53.6, 12)
  })
  it('has asymptotic limits at width x sigma x sqrt(lambda / (2 - lambda))', () => {
    const { lower, upper } = ewma([], settings)
    expect(upper).toBeCloseTo(52, 12)
    expect(lower).toBeCloseTo(48, 12)
  })
  it('names the first average outside on either side', () => {
    expect(ewma([40, 40, 40], settings).firstLow).toBe(1)
    expect(ewma([50, 61, 61], settings).firstHigh).toBe(1)
  })
  it('counts an average on the limit as inside', () => {
    const chart = ewma([51], { target: 50, sigma: 1, lambda: 1, width: 1 })
    expect(chart.firstHigh).toBeNull()
  })
  it('finds nothing in no value, and nothing in values at the target', () => {
    expect(ewma([], settings)).toMatchObject({ averages: [], firstLow: null, firstHigh: null })
    expect(ewma([50, 50], { ...settings, sigma: 0 })).toMatchObject({ firstLow: null, firstHigh: null })
  })
  it('treats -0 as 0', () => {
    const zero = { ...settings, target: 0 }
    expect(ewma([-0], zero).firstLow).toBeNull()
  })
  it.each([
    [{ sigma: -1 }],
    [{ lambda: 0 }],
    [{ lambda: 1.1 }],
    [{ width: -1 }],
    [{ target: Number.NaN }],
    [{ sigma: Number.POSITIVE_INFINITY }],
  ])('refuses the setting %j', (wrong) => {
    expect(() => ewma([1], { ...settings, ...wrong })).toThrow(RangeError)
  })
  it('refuses values that are not finite', () => {
    expect(() => ewma([50, Number.NaN], settings)).toThrow(RangeError)
  })
})
