import type { RuleSet } from '../../domain/ruleset.ts'
import { Watch } from '../../rules/watch.ts'
import type { PatientHistory } from '../../store/replay-history.ts'
import { Follower, keyOf, type RulesAt } from './follower.ts'
import { type Happening, happeningsOf } from './happenings.ts'
import type { Life } from './kept.ts'
import { Known } from './known.ts'

/** Over what is replayed, in ms since the epoch: `draft` holds from `from` on; nothing after `until` is known. */
export type Span = { from: number; until: number }

/** A rule set, from when on it was in force, ascending; the first holds before as well. */
export type InForce = readonly { from: number; rules: RuleSet }[]

export type Replayed = { inForce: Life[]; draft: Life[] }

export const rulesAt =
  (inForce: InForce): RulesAt =>
  (at) => {
    let rules = (inForce[0] as InForce[number]).rules
    for (const one of inForce) if (one.from <= at) rules = one.rules
    return rules
  }

/**
 * The flags of one patient under the rule sets that were in force, and with a draft in force from the beginning of
 * the period. As long as both must be the same, that is gone through once: before the period, and until the rules read
 * a threshold that the draft has otherwise. Pure.
 */
export function replayPatient(
  history: PatientHistory,
  inForce: InForce,
  draft: RuleSet | null,
  { from, until }: Span,
): Replayed {
  const known = new Known(history, until)
  const named = new Map(
    history.flags.map((flag) => [flag.id, keyOf({ code: flag.code, drain: flag.drainId })]),
  )
  const moments = momentsOf(history, inForce, until)
  const first = new Follower(known, rulesAt(inForce), named)
  const isWhole = (moments[0]?.at ?? until) >= from
  const before = isWhole ? [] : moments.filter(({ at }) => at < from)
  const after = moments.slice(before.length)
  go(first, before, from - 1)
  if (!draft) {
    go(first, after, until)
    return { inForce: first.kept.all, draft: [] }
  }
  // Where the draft comes into force everybody is looked at, as they are when a rule set does; gone through once more is what may
  // be otherwise from there.
  const parted: { at: number; other: Follower }[] = []
  first.watchFrom(Math.max(from, moments[0]?.at ?? from), watchOf(draft), (at) => {
    parted.push({ at, other: first.fork(() => draft) })
  })
  go(first, after, until)
  const [parting] = parted
  if (!parting) return { inForce: first.kept.all, draft: first.kept.all }
  const { at, other } = parting
  const rest = after.filter((moment) => moment.at >= at)
  go(other, rest[0]?.at === at ? rest : [{ at, all: [] }, ...rest], until)
  return { inForce: first.kept.all, draft: other.kept.all }
}

const watches = new WeakMap<RuleSet, Watch>()

function watchOf(draft: RuleSet): Watch {
  const watch = watches.get(draft) ?? new Watch(draft)
  watches.set(draft, watch)
  return watch
}

type AtOnce = { at: number; all: Happening[] }

/** What happened, by instant; a rule set that comes into force makes everybody be looked at who is followed. */
function momentsOf(history: PatientHistory, inForce: InForce, until: number): AtOnce[] {
  const moments = new Map<number, Happening[]>()
  const happenings = happeningsOf(history, until)
  const first = happenings[0]?.at ?? until
  for (const happening of happenings) {
    const all = moments.get(happening.at)
    if (all) all.push(happening)
    else moments.set(happening.at, [happening])
  }
  for (const { from } of inForce)
    if (from > first && from <= until && !moments.has(from)) moments.set(from, [])
  return [...moments].map(([at, all]) => ({ at, all })).sort((a, b) => a.at - b.at)
}

/** From moment to moment, and to each in between at which time alone makes the rules look. */
function go(follower: Follower, moments: readonly AtOnce[], until: number): void {
  for (const { at, all } of moments) {
    pass(follower, at - 1)
    if (all.length > 0) follower.happen(at, all)
    else follower.lookIfFollowed(at)
  }
  pass(follower, until)
}

function pass(follower: Follower, until: number): void {
  for (let next = follower.nextLook; next <= until; next = follower.nextLook) follower.look(next)
}
