import type { Finding } from '../domain/assessment.ts'
import type { FlagStep, FlagStepKind } from '../domain/flag.ts'
import { urgencyHours, urgencyRank } from '../domain/words.ts'
import type { KeptFlag } from '../store/flags.ts'
import { worseThan } from './worse.ts'

/** What has moved: flags as they now are (new ones among them), and a step for whatever a person should know. */
export type Moves = { flags: KeptFlag[]; steps: FlagStep[] }

type Standing = Finding['urgency']

const HOUR_MS = 3_600_000
const rank = (urgency: Standing) => urgencyRank[urgency]
const later = (a: string, b: string) => (Date.parse(a) >= Date.parse(b) ? a : b)
export const dueFrom = (since: string, urgency: Standing) =>
  new Date(Date.parse(since) + (urgencyHours[urgency] ?? 0) * HOUR_MS).toISOString()

export const isPressing = (urgency: Standing) => rank(urgency) >= urgencyRank['within-1h']
export const stands = ({ state }: KeptFlag) => state === 'open' || state === 'owed'
type Told = { code: string; drain: string | null }
const isOfSame = (one: Told, other: Told) => one.code === other.code && one.drain === other.drain
export const step = (
  flag: KeptFlag,
  at: string,
  kind: FlagStepKind,
  by: string | null,
  why: string,
): FlagStep => ({
  flagId: flag.id,
  at,
  kind,
  by,
  why,
  urgency: flag.urgency,
})

/**
 * Moves the flags of one patient to what the rules say now. Pure.
 *
 * `before` holds the flags whose life can still move: those that stand, and the closed ones that have held
 * since, or wait for their time to look again. Of one code and drain at most one stands or has held since its closing.
 * @param newId gives the id of a flag that opens
 */
export function moveFlags(
  patientId: string,
  before: readonly KeptFlag[],
  findings: readonly Finding[],
  now: string,
  newId: () => string,
): Moves {
  const all: Moves = { flags: [], steps: [] }
  const move = (own: readonly KeptFlag[], finding: Finding | null) => {
    const { flags, steps } = moveOne(patientId, own, finding, now, newId)
    all.flags.push(...flags)
    all.steps.push(...steps)
  }
  // Few stand at a time, so that looking through them costs less than putting them in order.
  before.forEach((flag, i) => {
    const isFirst = before.findIndex((other) => isOfSame(other, flag)) === i
    if (isFirst)
      move(
        before.filter((other) => isOfSame(other, flag)),
        findings.find((finding) => isOfSame(finding, flag)) ?? null,
      )
  })
  for (const finding of findings) if (!before.some((flag) => isOfSame(flag, finding))) move([], finding)
  return all
}

/** The flags of one code and drain. */
function moveOne(
  patientId: string,
  own: readonly KeptFlag[],
  finding: Finding | null,
  now: string,
  newId: () => string,
): Moves {
  const standing = own.find(stands)
  const closed = own.filter((flag) => flag.state === 'closed')
  const due = closed.filter(
    ({ lookAgainAt }) => lookAgainAt !== null && Date.parse(lookAgainAt) <= Date.parse(now),
  )
  const held = closed.find((flag) => flag.holdsStill)
  if (due.length > 0) return lookAgain(standing ?? null, held ?? null, due, finding, now)
  if (standing) return finding ? hold(standing, finding, now) : lapse(standing, now)
  if (!finding) return held ? { flags: [{ ...held, holdsStill: false }], steps: [] } : NOTHING
  return held ? stayClosed(held, finding, now) : open(patientId, finding, now, newId())
}

const NOTHING: Moves = { flags: [], steps: [] }

function open(patientId: string, finding: Finding, now: string, id: string): Moves {
  const { code, drain, nature, urgency, since, actBy } = finding
  const flag: KeptFlag = {
    id,
    patientId,
    drain,
    code,
    nature,
    state: 'open',
    urgency,
    since,
    actBy,
    openedAt: now,
    finding,
    closedAt: null,
    closedBy: null,
    closedFinding: null,
    lookAgainAt: null,
    spokenAt: null,
    holdsStill: true,
    endedAt: null,
  }
  const opened: FlagStep = {
    ...step(flag, now, 'opened', null, ''),
    // The finding's own words, which are written when they are read: a replay reads few of them.
    get why() {
      return finding.says
    },
  }
  return { flags: [flag], steps: [opened] }
}

/** The finding of a standing flag holds. Until somebody has spoken to the patient it can only grow more urgent. */
function hold(flag: KeptFlag, finding: Finding, now: string): Moves {
  const { nature, urgency } = finding
  const next: KeptFlag = { ...flag, state: 'open', finding, nature }
  const steps: FlagStep[] = []
  if (rank(urgency) > rank(flag.urgency)) {
    Object.assign(next, { urgency, since: finding.since, actBy: finding.actBy, spokenAt: null })
    steps.push(step(next, now, 'raised', null, finding.says))
  } else if (rank(urgency) < rank(flag.urgency) && flag.spokenAt !== null) {
    const since = later(finding.since, flag.spokenAt)
    Object.assign(next, { urgency, since, actBy: dueFrom(since, urgency) })
    steps.push(step(next, now, 'eased', null, `The patient was spoken to, and: ${finding.says}`))
  }
  if (flag.state === 'owed') steps.unshift(step(next, now, 'held-again', null, finding.says))
  return { flags: [next], steps }
}

/** The evidence of a standing flag has ended: a call that is owed keeps it in its place. */
function lapse(flag: KeptFlag, now: string): Moves {
  if (flag.state === 'owed') return NOTHING
  const isOwed = flag.spokenAt === null && (isPressing(flag.urgency) || flag.lookAgainAt !== null)
  const next: KeptFlag = isOwed ? { ...flag, state: 'owed' } : { ...flag, state: 'ended', endedAt: now }
  const why = isOwed
    ? 'The evidence has ended, and nobody has spoken to the patient yet.'
    : flag.spokenAt
      ? 'The evidence has ended, and the patient was spoken to.'
      : 'The evidence has ended.'
  return { flags: [next], steps: [step(next, now, isOwed ? 'owed' : 'ended', null, why)] }
}

/** A closed flag whose finding has held since: it comes back only when worse than at closing. */
function stayClosed(flag: KeptFlag, finding: Finding, now: string): Moves {
  const why = worseThan(finding, flag.closedFinding ?? flag.finding)
  if (!why) return NOTHING
  const isMoreUrgent = rank(finding.urgency) > rank((flag.closedFinding ?? flag.finding).urgency)
  const since = isMoreUrgent ? later(finding.since, flag.closedAt ?? finding.since) : now
  return giveBack(flag, finding, since, now, why)
}

/** The time to look again has come: the row returns whatever the rules say, as one flag. */
function lookAgain(
  standing: KeptFlag | null,
  held: KeptFlag | null,
  due: readonly KeptFlag[],
  finding: Finding | null,
  now: string,
): Moves {
  const [latest] = due.toSorted((a, b) => Date.parse(b.closedAt ?? '') - Date.parse(a.closedAt ?? ''))
  const target = standing ?? held ?? latest
  const promised = latest?.lookAgainAt
  if (!target || !promised) return NOTHING
  const kept = due.filter(({ id }) => id !== target.id).map((flag) => ({ ...flag, lookAgainAt: null }))
  const moved = standing
    ? andThen({ ...standing, lookAgainAt: promised, spokenAt: spokenSince(standing, promised) }, finding, now)
    : giveBack(
        { ...target, lookAgainAt: promised },
        finding,
        promised,
        now,
        'The time to look again has come.',
      )
  return { flags: [...moved.flags, ...kept], steps: moved.steps }
}

/** Only a call at the promised time or after it keeps the promise; an earlier one leaves it to be kept. */
const spokenSince = ({ spokenAt }: KeptFlag, promised: string): string | null =>
  spokenAt !== null && Date.parse(spokenAt) >= Date.parse(promised) ? spokenAt : null

/** A standing flag that takes a promise over: moved as ever, and kept even if nothing else has changed. */
function andThen(flag: KeptFlag, finding: Finding | null, now: string): Moves {
  const { flags, steps } = finding ? hold(flag, finding, now) : lapse(flag, now)
  return { flags: flags.length > 0 ? flags : [flag], steps }
}

function giveBack(flag: KeptFlag, finding: Finding | null, since: string, now: string, why: string): Moves {
  const urgency = finding?.urgency ?? flag.urgency
  const next: KeptFlag = {
    ...flag,
    state: finding ? 'open' : 'owed',
    urgency,
    since,
    actBy: dueFrom(since, urgency),
    finding: finding ?? flag.finding,
    closedAt: null,
    closedBy: null,
    closedFinding: null,
    spokenAt: null,
    holdsStill: true,
  }
  return { flags: [next], steps: [step(next, now, 'returned', null, why)] }
}
