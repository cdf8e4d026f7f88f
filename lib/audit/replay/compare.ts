import type { ReplayedFlag } from '../../domain/replay.ts'
import { urgencyRank } from '../../domain/words.ts'
import type { HistoryFlag } from '../../store/replay-history.ts'
import { keyOf } from './follower.ts'
import type { Life } from './kept.ts'

/**
 * How far apart a flag that happened and the same flag of a replay may have opened: the sweep comes some seconds after
 * the instant at which it is due, later where the server did not run (local choice).
 */
const SAME_MS = 15 * 60_000

const ms = (instant: string) => Date.parse(instant)

/** Until when a flag could still be the same one: to the end of its last span, or while its finding holds after a closing. */
function endMs({ flag, spans }: Life): number {
  if (flag.state === 'closed' && flag.holdsStill) return Number.POSITIVE_INFINITY
  return spans.at(-1)?.to ?? Number.POSITIVE_INFINITY
}

/** A flag of each rule set that is the same one: the same finding of the same drain, at overlapping times. Null: none. */
export type Pair = { inForce: Life | null; draft: Life | null }

/** Puts the flags of both rule sets side by side, each with at most one other. Pure. */
export function paired(inForce: readonly Life[], draft: readonly Life[]): Pair[] {
  const pairs: Pair[] = []
  const free = new Map<string, Life[]>()
  for (const life of byOpening(draft)) {
    const key = keyOf(life.flag)
    const list = free.get(key)
    if (list) list.push(life)
    else free.set(key, [life])
  }
  for (const life of byOpening(inForce)) {
    const candidates = free.get(keyOf(life.flag)) ?? []
    const place = candidates.findIndex(
      (other) => other.openedMs <= endMs(life) && life.openedMs <= endMs(other),
    )
    const [same = null] = place < 0 ? [] : candidates.splice(place, 1)
    pairs.push({ inForce: life, draft: same })
  }
  for (const list of free.values()) for (const life of list) pairs.push({ inForce: null, draft: life })
  return pairs.sort((a, b) => firstOf(a).openedMs - firstOf(b).openedMs)
}

const byOpening = (lives: readonly Life[]) => [...lives].sort((a, b) => a.openedMs - b.openedMs)
const firstOf = ({ inForce, draft }: Pair): Life => (inForce ?? draft) as Life

/** How the same flag differs: null where it does not. Times within the tolerance are the same time. */
export function shift({ inForce, draft }: Pair): { time: number; urgency: number } | null {
  if (!inForce || !draft) return null
  const apart = draft.openedMs - inForce.openedMs
  const time = Math.abs(apart) <= SAME_MS ? 0 : Math.sign(apart)
  const urgency = Math.sign(urgencyRank[draft.peak] - urgencyRank[inForce.peak])
  return time === 0 && urgency === 0 ? null : { time, urgency }
}

/** Which flag of a replay is one that happened, by the flag's id; a flag that the replay has not is left out. */
export function sameAsHappened(
  happened: readonly HistoryFlag[],
  inForce: readonly Life[],
): Map<string, Life> {
  const found = new Map<string, Life>()
  const taken = new Set<Life>()
  for (const flag of happened) {
    const at = ms(flag.openedAt)
    const same = inForce.find(
      (life) =>
        life.flag.code === flag.code &&
        life.flag.drain === flag.drainId &&
        !taken.has(life) &&
        Math.abs(life.openedMs - at) <= SAME_MS,
    )
    if (!same) continue
    taken.add(same)
    found.set(flag.id, same)
  }
  return found
}

/** A flag as a result shows it, in the most urgent form that it had. */
export function shownFlag({ flag, steps, spans, peak }: Life): ReplayedFlag {
  const end = spans.at(-1)?.to ?? null
  return {
    ...{ code: flag.code, drain: flag.drain, nature: flag.nature, urgency: peak, openedAt: flag.openedAt },
    endedAt: end === null ? null : new Date(end).toISOString(),
    says: steps.find(({ kind }) => kind === 'opened')?.why ?? flag.finding.says,
  }
}
