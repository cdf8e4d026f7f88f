import { randomFor } from '../../simulate/random.ts'

export type Estimate = {
  readonly value: number | null
  readonly low: number | null
  readonly high: number | null
}

const RESAMPLES = 400

/**
 * A figure over patients with its 95% interval, by the percentile bootstrap: patients are drawn with
 * replacement, since flags and days of one patient are not independent of each other.
 * Source: Efron & Tibshirani, An Introduction to the Bootstrap, 1993, chapter 13.
 * @param figure of a set of patients; null where it cannot be told
 */
export function resampled<T>(
  patients: readonly T[],
  figure: (patients: readonly T[]) => number | null,
  name: string,
): Estimate {
  const value = figure(patients)
  if (value === null || patients.length === 0) return { value, low: null, high: null }
  const random = randomFor(1, 'bootstrap', name)
  const draws: number[] = []
  for (let i = 0; i < RESAMPLES; i++) {
    const drawn = patients.map(() => patients[Math.floor(random.uniform() * patients.length)] as T)
    const again = figure(drawn)
    if (again !== null) draws.push(again)
  }
  draws.sort((a, b) => a - b)
  const at = (share: number) =>
    draws[Math.min(draws.length - 1, Math.max(0, Math.round(share * (draws.length - 1))))] ?? null
  return { value, low: at(0.025), high: at(0.975) }
}

/** Ratio of two sums over patients; null where the second is nothing. */
export const ratioOf =
  <T>(above: (patient: T) => number, below: (patient: T) => number, times = 1) =>
  (patients: readonly T[]): number | null => {
    let a = 0
    let b = 0
    for (const patient of patients) {
      a += above(patient)
      b += below(patient)
    }
    return b === 0 ? null : (times * a) / b
  }

/** The value below which a share of the pooled values lies (type 7 of R’s quantile); null where there is none. */
export const quantileOf =
  <T>(share: number, values: (patient: T) => readonly number[]) =>
  (patients: readonly T[]): number | null => {
    const all = patients.flatMap(values).sort((a, b) => a - b)
    if (all.length === 0) return null
    const rank = share * (all.length - 1)
    const below = Math.floor(rank)
    const low = all[below] ?? 0
    return low + ((all[below + 1] ?? low) - low) * (rank - below)
  }
