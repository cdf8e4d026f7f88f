import type { Estimate } from '../../domain/replay.ts'

/** Draws with replacement; more change an interval's ends by less than its own noise (local choice). */
const DRAWS = 1000

/** A figure of some patients; null where they do not carry one. */
export type FigureOf<T> = (patients: readonly T[]) => number | null
export type Compared = { inForce: Estimate; draft: Estimate; change: Estimate }

/**
 * Two figures over the same patients and their difference, each with its 95% interval.
 *
 * Method: percentile bootstrap, patients drawn with replacement, since what is told of one patient is not independent; both
 * figures of a draw are of the same patients, so that their difference is paired. The draws are seeded: the same data
 * give the same interval. Units: those of the figures. Assumptions: patients are independent of each other, and not few.
 * Source: Efron and Tibshirani, An Introduction to the Bootstrap, 1993, chapter 13; by cluster: Davison and Hinkley,
 * Bootstrap Methods and their Application, 1997, section 3.8 (both from memory).
 *
 * @param n how many flags or events each figure rests on
 * @returns no interval where fewer than two patients are there
 */
export function compared<T>(
  patients: readonly T[],
  inForce: FigureOf<T>,
  draft: FigureOf<T>,
  n: { inForce: number; draft: number },
): Compared {
  const change: FigureOf<T> = (some) => {
    const before = inForce(some)
    const after = draft(some)
    return before === null || after === null ? null : after - before
  }
  const draws = { inForce: [] as number[], draft: [] as number[], change: [] as number[] }
  const figures = { inForce, draft, change }
  const names = ['inForce', 'draft', 'change'] as const
  if (patients.length > 1) {
    const next = seeded(patients.length)
    for (let i = 0; i < DRAWS; i++) {
      const drawn = patients.map(() => patients[Math.floor(next() * patients.length)] as T)
      for (const name of names) {
        const value = figures[name](drawn)
        if (value !== null) draws[name].push(value)
      }
    }
  }
  const estimate = (name: (typeof names)[number], of: number): Estimate => ({
    value: figures[name](patients),
    ...interval(draws[name]),
    n: of,
  })
  return {
    inForce: estimate('inForce', n.inForce),
    draft: estimate('draft', n.draft),
    change: estimate('change', Math.min(n.inForce, n.draft)),
  }
}

/** The middle 95% of the draws; none where most draws carry no figure, or all the same one: then no spread can be seen. */
function interval(draws: number[]): { low: number | null; high: number | null } {
  if (draws.length < DRAWS / 2) return { low: null, high: null }
  draws.sort((a, b) => a - b)
  if (draws[0] === draws.at(-1)) return { low: null, high: null }
  const at = (share: number) => draws[Math.round(share * (draws.length - 1))] ?? null
  return { low: at(0.025), high: at(0.975) }
}

/** Numbers in [0, 1) that are the same in every run: sfc32 (Chris Doty-Humphrey, PractRand). */
function seeded(seed: number): () => number {
  let [a, b, c, counter] = [0x9e3779b9, 0x243f6a88, seed | 0, 1]
  const next = () => {
    const word = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (((c << 21) | (c >>> 11)) + word) | 0
    return (word >>> 0) / 4294967296
  }
  for (let i = 0; i < 15; i++) next()
  return next
}
