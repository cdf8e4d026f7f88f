/** What was counted in one span, and out of how much: events and the days at risk, say. */
export type Counted = { readonly events: number; readonly exposure: number }
export type Limits = { readonly lower: number; readonly upper: number }

/**
 * Between which rates does a span lie as long as nothing but chance is at work?
 *
 * Method: u-chart: centre ū = all events / all exposure; limits ū ± 3 √(ū / exposure of the span), the lower not under 0.
 * Units: events per unit of exposure. Assumptions: independent counts of equal rate (Poisson); where the same people
 * count again and again the limits are too narrow.
 * Source: Montgomery, Introduction to Statistical Quality Control; NIST/SEMATECH e-Handbook 6.3.3.1.
 *
 * @returns null where there was no exposure at all; a span without exposure has no limits.
 * @throws RangeError on a negative count or exposure.
 */
export function uChart(spans: readonly Counted[]): { centre: number; limits: (Limits | null)[] } | null {
  if (spans.some(({ events, exposure }) => !(events >= 0 && exposure >= 0)))
    throw new RangeError('accepted: counts and exposures of 0 or more')
  const exposure = spans.reduce((sum, span) => sum + span.exposure, 0)
  if (exposure === 0) return null
  const centre = spans.reduce((sum, span) => sum + span.events, 0) / exposure
  return {
    centre,
    limits: spans.map((span) => {
      if (span.exposure === 0) return null
      const reach = 3 * Math.sqrt(centre / span.exposure)
      return { lower: Math.max(0, centre - reach), upper: centre + reach }
    }),
  }
}
