/**
 * `published`: read in the source; `calculated`: our arithmetic on a published figure; `assumed`: no figure
 * was found, and the number is our own plausible guess.
 */
export type Support = 'published' | 'published, secondary copy' | 'from memory' | 'calculated' | 'assumed'
export type Parameter<T = number> = {
  readonly value: T
  readonly unit: string
  readonly source: string
  readonly support: Support
}

export const given = <T>(value: T, unit: string, source: string, support: Support): Parameter<T> => ({
  value,
  unit,
  source,
  support,
})
export const assumed = <T>(value: T, unit: string, why: string) => given(value, unit, why, 'assumed')

/** Cumulative hazard `(days / 30) ^ shape × by30Days`: a shape under 1 makes the hazard fall with time. */
export type Hazard = { readonly by30Days: number; readonly shape: number }

/** How much a kind of drain gives: median and log-spread over patients, half-life where it dwindles. */
export type Level = {
  readonly medianMlPerDay: number
  readonly logSd: number
  readonly lowest: number
  readonly highest: number
  /** Day to day, as a coefficient of variation within one patient. */
  readonly dayCv: number
  /** Days in which the output halves; null where it should stay. */
  readonly halfLifeDays: readonly [number, number] | null
  readonly nightShare: number
}
