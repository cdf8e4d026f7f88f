import { describe, expect, it } from 'vitest'
import { theilSen } from '../../../lib/rules/statistics/theil-sen.ts'

const line = (ys: readonly number[]) => ys.map((y, x) => ({ x, y }))
const of = (...given: Parameters<typeof theilSen>) => {
  const fit = theilSen(...given)
  if (!fit.enough) throw new Error('enough points were given')
  return fit
}

describe('theilSen', () => {
  it('finds a straight line exactly', () => {
    const fit = of(Object.freeze(line([10, 8, 6, 4, 2, 0, -2])))
    expect(fit).toEqual({ enough: true, slope: -2, intercept: 10, low: -2, high: -2 })
  })
  it('is not moved by one wild point', () => {
    expect(of(line([10, 8, 6, 4000, 2, 0, -2])).slope).toBeCloseTo(-2, 0)
  })
  it('does not care about the order of the points', () => {
    const points = line([5, 9, 2, 8, 1, 7, 3])
    expect(of([...points].reverse())).toEqual(of(points))
  })
  it('leaves pairs at the same x out', () => {
    const fit = of([
      { x: 1, y: 0 },
      { x: 1, y: 100 },
      { x: 2, y: 50 },
    ])
    expect(fit.slope).toBe(0)
  })
  it('says that two points do not bound the slope', () => {
    expect(of(line([0, 1]))).toMatchObject({
      slope: 1,
      low: Number.NEGATIVE_INFINITY,
      high: Number.POSITIVE_INFINITY,
    })
  })
  it('is wider at a higher level', () => {
    const points = line([1, 4, 2, 6, 3, 8, 9, 5, 7, 12])
    const at80 = of(points, 80)
    const at99 = of(points, 99)
    expect(at99.low).toBeLessThan(at80.low)
    expect(at99.high).toBeGreaterThan(at80.high)
    expect(at80.low).toBeLessThanOrEqual(at80.slope)
  })
  it('is flat, without -0, where all y are equal', () => {
    const fit = of(line([5, 5, 5, 5, 5]))
    expect(Object.is(fit.slope, 0)).toBe(true)
    expect(fit.intercept).toBe(5)
  })
  it('answers too few for none, one, and points at one x', () => {
    expect(theilSen([])).toEqual({ enough: false, have: 0, need: 2 })
    expect(theilSen([{ x: 1, y: 1 }])).toEqual({ enough: false, have: 1, need: 2 })
    const atOneX = [
      { x: 1, y: 1 },
      { x: 1, y: 2 },
    ]
    expect(theilSen(atOneX)).toEqual({ enough: false, have: 1, need: 2 })
  })
  it('refuses coordinates that are not finite', () => {
    expect(() => theilSen([{ x: Number.NaN, y: 1 }])).toThrow(RangeError)
    expect(() => theilSen([{ x: 1, y: Number.POSITIVE_INFINITY }])).toThrow(RangeError)
  })
})
