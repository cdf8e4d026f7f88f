/** How many in a row make a shift, and a trend. */
export const SHIFT = 6
export const TREND = 5

/** A run that chance alone seldom makes: which points, by their places in the list, and whether they lie, or go, up or down. */
export type Run = {
  readonly kind: 'shift' | 'trend'
  readonly from: number
  readonly to: number
  readonly up: boolean
}

/**
 * Which runs of points are more than chance?
 *
 * Method: a shift is six or more points in a row on one side of the centre, those on it not counting; a trend is five or
 * more in a row that all rise or all fall, repeats not counting. Points that are missing are passed over. The rules on the number of runs
 * and on a point that all would call astronomical are left to the eye.
 * Source: Perla, Provost and Murray, BMJ Qual Saf 2011;20:46 (read in secondary copies: BMJ Open table of rules for run charts). Anhøj and
 * Olesen, PLoS ONE 2014;9:e113825, found the trend rule virtually useless for a slow drift.
 */
export function runRules(values: readonly (number | null)[], centre: number): Run[] {
  const points = values.flatMap((value, place) => (value === null ? [] : [{ value, place }]))
  const sides = points
    .filter(({ value }) => value !== centre)
    .map(({ value, place }) => ({ place, up: value > centre }))
  const moves = points.flatMap(({ value, place }, i) => {
    const before = points[i - 1]
    return before === undefined || before.value === value
      ? []
      : [{ place, up: value > before.value, from: before.place }]
  })
  return [
    ...alike(sides, SHIFT).map((run) => ({ kind: 'shift' as const, ...run })),
    ...alike(moves, TREND - 1).map((run) => ({
      kind: 'trend' as const,
      ...run,
      from: moves.find(({ place }) => place === run.from)?.from ?? run.from,
    })),
  ]
}

/** Stretches of at least so many in a row that say the same. */
function alike(list: readonly { place: number; up: boolean }[], least: number) {
  const runs: { from: number; to: number; up: boolean; length: number }[] = []
  for (const { place, up } of list) {
    const run = runs.at(-1)
    if (run && run.up === up) {
      run.to = place
      run.length++
    } else runs.push({ from: place, to: place, up, length: 1 })
  }
  return runs.filter(({ length }) => length >= least).map(({ from, to, up }) => ({ from, to, up }))
}
