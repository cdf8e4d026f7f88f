import type { Flag, FlagStep } from './flag.ts'
import type { Instant } from './instant.ts'

/** How often, within how long, a flag opens and ends until it flutters. */
export const FLUTTER_TIMES = 3
export const FLUTTER_HOURS = 72
const WINDOW_MS = FLUTTER_HOURS * 3_600_000

/** Flags of one code and drain that opened and ended again and again: one thing that flutters, not several. */
export type Flutter = {
  code: Flag['code']
  drain: string | null
  /** The flags that it is made of, the earliest first; the one that stands now among them. */
  flagIds: string[]
  times: number
  from: Instant
  until: Instant
}

type Life = Pick<Flag, 'id' | 'code' | 'drain'>
type Cycle = { flagId: string; openedAt: Instant; endedAt: Instant }

const opens: readonly FlagStep['kind'][] = ['opened', 'held-again', 'returned']
/** Evidence that ended. What a person closed did not end by itself. */
const ends: readonly FlagStep['kind'][] = ['ended', 'owed']

/**
 * Which flags flutter: opened and ended three times in 72 h. A window ends at its time (<): 72 h from the first opening
 * to the third end are too long.
 */
export function flutters(
  flags: readonly Life[],
  steps: readonly Pick<FlagStep, 'flagId' | 'at' | 'kind'>[],
): Flutter[] {
  const keys = new Map(flags.map((flag) => [`${flag.code} ${flag.drain ?? ''}`, flag]))
  return [...keys.values()].flatMap(({ code, drain }) => {
    const ids = new Set(
      flags.filter((flag) => flag.code === code && flag.drain === drain).map(({ id }) => id),
    )
    const own = steps
      .filter(({ flagId }) => ids.has(flagId))
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
    const { cycles, standing } = cyclesOf(own)
    return runsOf(cycles).map((run) => {
      const isNow = standing !== null && isWithin(run.at(1 - FLUTTER_TIMES)?.openedAt, standing.openedAt)
      return {
        code,
        drain,
        flagIds: [...new Set([...run.map(({ flagId }) => flagId), ...(isNow ? [standing.flagId] : [])])],
        times: run.length,
        from: run[0]?.openedAt ?? '',
        until: run.at(-1)?.endedAt ?? '',
      }
    })
  })
}

const isWithin = (from: Instant | undefined, until: Instant): boolean =>
  from !== undefined && Date.parse(until) - Date.parse(from) < WINDOW_MS

/** From opening to end, one after another; and the opening that has not ended. */
function cyclesOf(steps: readonly Pick<FlagStep, 'flagId' | 'at' | 'kind'>[]) {
  const cycles: Cycle[] = []
  let standing: { flagId: string; openedAt: Instant } | null = null
  for (const { flagId, at, kind } of steps) {
    if (opens.includes(kind)) standing ??= { flagId, openedAt: at }
    else if (ends.includes(kind) && standing) {
      cycles.push({ ...standing, endedAt: at })
      standing = null
    } else if (kind === 'closed') standing = null
  }
  return { cycles, standing }
}

/** Cycles that belong together: every three in a row that fit into the window, joined where they overlap. */
function runsOf(cycles: readonly Cycle[]): Cycle[][] {
  const runs: { from: number; to: number }[] = []
  for (let i = 0; i + FLUTTER_TIMES <= cycles.length; i++) {
    const third = cycles[i + FLUTTER_TIMES - 1]
    if (!third || !isWithin(cycles[i]?.openedAt, third.endedAt)) continue
    const run = runs.at(-1)
    if (run && i < run.to) run.to = i + FLUTTER_TIMES
    else runs.push({ from: i, to: i + FLUTTER_TIMES })
  }
  return runs.map(({ from, to }) => cycles.slice(from, to))
}
