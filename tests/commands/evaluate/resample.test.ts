import { describe, expect, it } from 'vitest'
import { quantileOf, ratioOf, resampled } from '../../../lib/commands/evaluate/resample.ts'

describe('resampled', () => {
  const patients = Array.from({ length: 200 }, (_, i) => i % 4)

  it('gives the figure with an interval about it, the same each time', () => {
    const mean = ratioOf<number>(
      (value) => value,
      () => 1,
    )
    const once = resampled(patients, mean, 'mean')
    expect(once.value).toBe(1.5)
    expect(once.low).toBeGreaterThan(1.3)
    expect(once.high).toBeLessThan(1.7)
    // Standard error of the mean: sqrt(1.25 / 200) = 0.079; 95% of a normal lie within 1.96 of them.
    expect((once.high ?? 0) - (once.low ?? 0)).toBeCloseTo(2 * 1.96 * Math.sqrt(1.25 / 200), 1)
    expect(resampled(patients, mean, 'mean')).toEqual(once)
  })

  it('says nothing where nothing can be told', () => {
    expect(
      resampled(
        [],
        ratioOf<number>(
          (v) => v,
          () => 0,
        ),
        'none',
      ),
    ).toEqual({ value: null, low: null, high: null })
  })
})

describe('quantileOf', () => {
  // R: quantile(c(1, 2, 3, 4, 10), c(0.5, 0.9)) gives 3.0 and 7.6
  it('agrees with R', () => {
    const values = [[1, 10], [2, 3], [4]]
    expect(quantileOf<number[]>(0.5, (v) => v)(values)).toBe(3)
    expect(quantileOf<number[]>(0.9, (v) => v)(values)).toBeCloseTo(7.6)
    expect(quantileOf<number[]>(0.9, (v) => v)([])).toBeNull()
  })
})
