import { requireFinite, type TooFew } from './input.ts'
import { kendallVariance } from './kendall-variance.ts'
import { median } from './median.ts'
import { type Level, normalQuantile } from './normal-quantile.ts'

export type Point = { readonly x: number; readonly y: number }

export type TheilSen = {
  readonly enough: true
  readonly slope: number
  readonly intercept: number
  /** Ends of the confidence interval of the slope; infinite where the points are too few to bound it. */
  readonly low: number
  readonly high: number
}

/**
 * By how much does y change per unit of x, whatever a few strange points do?
 *
 * Method: Theil–Sen: the median of the slopes of all pairs with different x; intercept median(y) − slope × median(x)
 * (Conover). Interval: of the N ordered slopes the one at rank (N − C) / 2, rounded, and its mirror image,
 * C = z × √variance of Kendall's S; the same ranks as in SciPy `theilslopes`.
 * Units: y per x. Assumptions: errors independent of x; nothing of their distribution, up to 29% strange points.
 * Source: Theil 1950; Sen, J Am Stat Assoc 1968;63:1379; Gilbert 1987, section 16.4 (from memory).
 *
 * @returns the slope, or the verdict that fewer than 2 points have different x.
 * @throws RangeError on a coordinate that is not finite.
 * @example theilSen([{ x: 1, y: 10 }, { x: 2, y: 8 }, { x: 3, y: 6 }]) // slope -2, intercept 12
 */
export function theilSen(points: readonly Point[], level: Level = 95): TheilSen | TooFew {
  const xs = points.map((point) => point.x)
  const ys = points.map((point) => point.y)
  requireFinite(xs, 'x')
  requireFinite(ys, 'y')
  const slopes: number[] = []
  points.forEach((a, i) => {
    for (const b of points.slice(i + 1)) if (a.x !== b.x) slopes.push((b.y - a.y) / (b.x - a.x))
  })
  if (slopes.length === 0) return { enough: false, have: Math.min(points.length, 1), need: 2 }
  slopes.sort((a, b) => a - b)
  const reach = normalQuantile(level) * Math.sqrt(kendallVariance(ys, xs))
  const below = Math.round((slopes.length - reach) / 2) // rank from 1; under 1 there is no such slope
  const slope = median(slopes)
  return {
    enough: true,
    slope,
    intercept: median(ys) - slope * median(xs),
    low: slopes[below - 1] ?? Number.NEGATIVE_INFINITY,
    high: slopes[slopes.length - below] ?? Number.POSITIVE_INFINITY,
  }
}
