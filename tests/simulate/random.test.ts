import { describe, expect, it } from 'vitest'
import { randomFor } from '../../lib/simulate/random.ts'

const many = Array.from({ length: 20_000 })

describe('randomFor', () => {
  it('gives the same numbers for the same seed and names, others for others', () => {
    const first = (seed: number, ...keys: (string | number)[]) => randomFor(seed, ...keys).uniform()
    expect(first(7, 'output', 1)).toBe(first(7, 'output', 1))
    expect(
      new Set([first(7, 'output', 1), first(7, 'output', 2), first(8, 'output', 1), first(7, 'habit', 1)])
        .size,
    ).toBe(4)
  })

  it('is uniform in [0, 1)', () => {
    const random = randomFor(1, 'uniform')
    const values = many.map(() => random.uniform())
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...values)).toBeLessThan(1)
    const tenths = Array.from(
      { length: 10 },
      (_, i) => values.filter((value) => Math.floor(value * 10) === i).length,
    )
    const chiSquare = tenths.reduce((sum, count) => sum + (count - 2000) ** 2 / 2000, 0)
    expect(chiSquare).toBeLessThan(27.88) // 99.9% point of chi-square with 9 degrees of freedom
  })

  it('is uniform over neighbouring seeds too', () => {
    const mean =
      many.reduce<number>((sum, _, seed) => sum + randomFor(seed, 'first').uniform(), 0) / many.length
    expect(mean).toBeCloseTo(0.5, 1)
  })

  it('gives normal numbers of the asked mean and spread', () => {
    const random = randomFor(2, 'normal')
    const values = many.map(() => random.normal(10, 3))
    const mean = values.reduce((sum, value) => sum + value) / values.length
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
    expect(Math.abs(mean - 10)).toBeLessThan(0.1)
    expect(Math.abs(sd - 3)).toBeLessThan(0.1)
  })

  it('chooses by weight, and refuses to choose from nothing', () => {
    const random = randomFor(3, 'weights')
    const chosen = many.map(() =>
      random.weighted([
        ['often', 9],
        ['seldom', 1],
      ] as const),
    )
    expect(chosen.filter((word) => word === 'seldom').length / many.length).toBeCloseTo(0.1, 1)
    expect(() => random.weighted([])).toThrow(RangeError)
  })
})
