import { describe, expect, it } from 'vitest'
import { randomFor } from '../../lib/simulate/random.ts'
import { readVolume, slipOf, typed } from '../../lib/simulate/volume.ts'

describe('readVolume', () => {
  it('is within 10% of the truth in about 65% of readings, as nurses were found to be', () => {
    const random = randomFor(1, 'read')
    const seen = Array.from({ length: 10_000 }, () => readVolume(1000, 2, random))
    expect(seen.filter((ml) => Math.abs(ml - 1000) <= 100).length / seen.length).toBeCloseTo(0.65, 1)
    expect(seen.reduce((sum, ml) => sum + ml) / seen.length).toBeCloseTo(1000, -1)
  })

  it('stands on a half mark and is never negative', () => {
    const random = randomFor(2, 'read')
    for (let ml = 0; ml < 300; ml += 7) {
      const seen = readVolume(ml, 25, random)
      expect(seen % 12.5).toBe(0)
      expect(seen).toBeGreaterThanOrEqual(0)
    }
  })
})

describe('typed', () => {
  it('types ounces for millilitres', () => expect(typed(400, 'ounces')).toBe(14))
  it('slips by a digit, but never over what the form takes unasked', () => {
    expect(typed(400, 'digit')).toBe(4000)
    expect(typed(800, 'digit')).toBe(80)
  })
  it('mostly types what was read', () => {
    const random = randomFor(3, 'slips')
    const slips = Array.from({ length: 10_000 }, () => slipOf(random)).filter((slip) => slip !== null)
    expect(slips.length / 10_000).toBeCloseTo(0.007, 2)
    expect(new Set(slips).size).toBe(3)
  })
})
