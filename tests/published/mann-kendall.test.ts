import { expect, it } from 'vitest'
import { mannKendall } from '../../lib/rules/statistics/mann-kendall.ts'

/** Source: mathcs.holycross.edu/~little, MannKendallByHand. Confidence: published. */
const values = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7]

it('gives the test worked by hand: S 54, one tied pair, Z 2.9058, one-sided p 0.0018', () => {
  const test = mannKendall(values)
  if (!test.enough) throw new Error('fourteen values are enough')
  expect(test.s).toBe(72 - 18)
  expect(test.variance).toBeCloseTo(332.667, 3)
  expect(test.z).toBeCloseTo(2.9058, 4)
  expect(test.pRise).toBeCloseTo(0.0018, 4)
  expect(test.pFall).toBeCloseTo(1 - 0.0018, 4)
})
