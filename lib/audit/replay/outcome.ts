import type { OutsideEvent } from '../../domain/outside-event.ts'
import type { DifferingPatient } from '../../domain/replay.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { urgencyRank } from '../../domain/words.ts'
import type { PatientHistory } from '../../store/replay-history.ts'
import { type FlagToMatch, matchEvents } from '../figures/event-match.ts'
import { type Pair, paired, sameAsHappened, shift, shownFlag } from './compare.ts'
import { keyOf } from './follower.ts'
import type { Life } from './kept.ts'
import { type InForce, replayPatient } from './replay-patient.ts'
import { countsOf, emptyTally, type Tally } from './tally.ts'

/** What is replayed. Times in ms since the epoch; `later` divides the period. */
export type Task = {
  clinicId: string
  draft: RuleSet
  inForce: InForce
  from: number
  later: number | null
  until: number
}

/** A verdict on a flag that happened. */
export type Judged = { flagId: string; isWarranted: boolean; weight: number }
export type KnownEvent = Pick<OutsideEvent, 'id' | 'patientId' | 'drain' | 'kind' | 'at'>

/** Of one verdict or one event of a patient how it stands to both rule sets; `part` is 1 in the later weeks. */
export type JudgedFlag = { part: 0 | 1; weight: number; isWarranted: boolean; inDraft: boolean }
export type MetEvent = { part: 0 | 1; inForce: number | null; draft: number | null }

/** What is told of one patient: small, so that ten thousand can be added up. */
export type Outcome = {
  patientId: string
  tallies: [Tally, Tally]
  judged: JudgedFlag[]
  events: MetEvent[]
  differs: Omit<DifferingPatient, 'patientId' | 'name' | 'birthDate' | 'recordNumber'> | null
  /** How pressing the differences are, for the order of the list. */
  weight: number
  same: number
  different: number
  examples: string[]
  unreadable: number
}

/** Differences of a patient that are kept of each kind. */
const KEPT = 12
const DAY_MS = 86_400_000

/** Runs one patient under both rule sets and compares. Pure. */
export function outcomeOf(
  history: PatientHistory,
  judged: readonly Judged[],
  events: readonly KnownEvent[],
  task: Task,
): Outcome {
  const { patientId } = history
  const { inForce, draft } = replayPatient(history, task.inForce, task.draft, task)
  const pairs = paired(inForce, draft)
  const isIn = (at: number) => at >= task.from && at <= task.until
  const partOf = (at: number): 0 | 1 => (task.later !== null && at >= task.later ? 1 : 0)
  const tallies: [Tally, Tally] = [emptyTally(), emptyTally()]
  count(tallies, pairs, isIn, partOf)
  followed(tallies, history, task)

  const happened = history.flags.filter(({ openedAt }) => isIn(Date.parse(openedAt)))
  const replayedThen = inForce.filter((life) => isIn(life.openedMs))
  const known = sameAsHappened(happened, inForce)
  const agreed = new Set(known.values())
  const only = replayedThen.filter((life) => !agreed.has(life))
  const missing = happened.filter(({ id }) => !known.has(id))
  const examples = [
    ...missing.map(({ code, openedAt }) => `${openedAt} ${code}: it happened, and is not in the replay`),
    ...only.map(({ flag }) => `${flag.openedAt} ${flag.code}: in the replay, and it did not happen`),
  ]
  const differences = pairs.filter(
    (pair) => isInPair(pair, isIn) && (!pair.inForce || !pair.draft || shift(pair) !== null),
  )
  return {
    ...{ patientId, tallies },
    judged: judgedFlags(judged, happened, known, pairs, draft, partOf),
    events: metEvents(patientId, events, inForce, draft, partOf),
    differs: differences.length > 0 ? shown(differences) : null,
    weight: differences.reduce(
      (sum, { inForce: a, draft: b }) => sum + 10 ** urgencyRank[((b ?? a) as Life).peak],
      0,
    ),
    ...{ same: happened.length - missing.length, different: missing.length + only.length },
    examples: examples.slice(0, 3),
    unreadable: history.unreadable.length,
  }
}

/** Whether either of the two opened in the period. */
const isInPair = ({ inForce, draft }: Pair, isIn: (at: number) => boolean): boolean =>
  (inForce !== null && isIn(inForce.openedMs)) || (draft !== null && isIn(draft.openedMs))

function count(
  tallies: [Tally, Tally],
  pairs: readonly Pair[],
  isIn: (at: number) => boolean,
  partOf: (at: number) => 0 | 1,
): void {
  const rows = { inForce: new Set<number>(), draft: new Set<number>() }
  for (const pair of pairs) {
    const moved = isInPair(pair, isIn) ? shift(pair) : null
    for (const side of ['inForce', 'draft'] as const) {
      const life = pair[side]
      if (!life || !isIn(life.openedMs)) continue
      const at = life.openedMs
      const tally = tallies[partOf(at)]
      const isAlone = pair.inForce === null || pair.draft === null
      const change = side === 'draft' ? 'gained' : 'lost'
      for (const counts of [tally.flags, countsOf(tally, life.flag.code)]) {
        counts[side]++
        if (isAlone) counts[change]++
      }
      const urgency = tally.byUrgency[life.peak]
      urgency[side]++
      if (isAlone || moved?.urgency) urgency[change]++
      if (life.flag.nature === 'clinical' && !rows[side].has(at)) {
        rows[side].add(at)
        tally.openings[side]++
      }
    }
    if (!moved || !pair.inForce) continue
    const to = tallies[partOf(Math.max(pair.inForce.openedMs, (pair.draft as Life).openedMs))].moved
    if (moved.time !== 0) to[moved.time < 0 ? 'earlier' : 'later']++
    if (moved.urgency !== 0) to[moved.urgency > 0 ? 'more' : 'less']++
  }
}

/** On how many days of each part the patient was followed. */
function followed(tallies: [Tally, Tally], history: PatientHistory, { from, later, until }: Task): void {
  const turns = history.followUp.filter(({ step }) => step !== 'undo-asked')
  const parts =
    later === null
      ? [[from, until]]
      : [
          [from, later],
          [later, until],
        ]
  let since: number | null = Date.parse(history.recordedAt)
  const spans: [number, number][] = []
  for (const { recordedAt, step } of turns) {
    const at = Date.parse(recordedAt)
    if (step === 'ended' && since !== null) {
      spans.push([since, at])
      since = null
    } else if (step === 'resumed') since ??= at
  }
  if (since !== null) spans.push([since, until])
  parts.forEach(([start = 0, end = 0], i) => {
    const tally = tallies[i as 0 | 1]
    const time = spans.reduce((sum, [a, b]) => sum + Math.max(0, Math.min(b, end) - Math.max(a, start)), 0)
    tally.days += time / DAY_MS
    if (time > 0) tally.patients++
  })
}

/** Which of the clinical flags that were judged the draft would have opened, too. */
function judgedFlags(
  judged: readonly Judged[],
  happened: readonly PatientHistory['flags'][number][],
  known: ReadonlyMap<string, Life>,
  pairs: readonly Pair[],
  draft: readonly Life[],
  partOf: (at: number) => 0 | 1,
): JudgedFlag[] {
  return judged.flatMap(({ flagId, isWarranted, weight }): JudgedFlag[] => {
    const flag = happened.find(({ id }) => id === flagId)
    if (flag?.nature !== 'clinical') return []
    const at = Date.parse(flag.openedAt)
    const own = known.get(flagId)
    const inDraft = own
      ? pairs.some((pair) => pair.inForce === own && pair.draft !== null)
      : draft.some(
          (life) =>
            keyOf(life.flag) === keyOf({ code: flag.code, drain: flag.drainId }) &&
            life.spans.some(({ from, to }) => from <= at && (to === null || to >= at)),
        )
    return [{ part: partOf(at), weight, isWarranted, inDraft }]
  })
}

/** By how many hours the flags of each rule set were ahead of what befell the patient outside; null: no flag told of it. */
function metEvents(
  patientId: string,
  events: readonly KnownEvent[],
  inForce: readonly Life[],
  draft: readonly Life[],
  partOf: (at: number) => 0 | 1,
): MetEvent[] {
  if (events.length === 0) return []
  const toMatch = events.map((event) => ({ ...event, heardAt: null }))
  const flagsOf = (lives: readonly Life[]): FlagToMatch[] =>
    lives.map(({ flag: { id, drain, code, openedAt } }) => ({ id, patientId, drain, code, openedAt }))
  const before = matchEvents(toMatch, flagsOf(inForce))
  const after = matchEvents(toMatch, flagsOf(draft))
  return events.map(({ at }, i) => ({
    part: partOf(Date.parse(at)),
    inForce: before[i]?.hoursAhead ?? null,
    draft: after[i]?.hoursAhead ?? null,
  }))
}

function shown(differences: readonly Pair[]): NonNullable<Outcome['differs']> {
  const gained = differences.flatMap(({ inForce, draft }) => (draft && !inForce ? [shownFlag(draft)] : []))
  const lost = differences.flatMap(({ inForce, draft }) => (inForce && !draft ? [shownFlag(inForce)] : []))
  const moved = differences.flatMap(({ inForce, draft }) =>
    inForce && draft ? [{ inForce: shownFlag(inForce), draft: shownFlag(draft) }] : [],
  )
  return {
    ...{ gained: gained.slice(0, KEPT), lost: lost.slice(0, KEPT), moved: moved.slice(0, KEPT) },
    count: differences.length,
  }
}
