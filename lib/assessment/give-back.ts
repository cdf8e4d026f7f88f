import type { Finding } from '../domain/assessment.ts'
import type { FlagStep } from '../domain/flag.ts'
import { urgencyRank } from '../domain/words.ts'
import { assess } from '../rules/assess.ts'
import { addSteps, type KeptFlag, livingFlagsOf, saveFlags } from '../store/flags.ts'
import { flagsMovedAt, type MovedFlag } from '../store/flags-moved.ts'
import type { Tx } from '../store/index.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { dueFrom, stands, step } from './flag-life.ts'
import { reassess } from './reassess.ts'
import { ruleSetAt } from './rule-set.ts'

/** What was withdrawn: when it had been recorded, who withdraws it, and what a flag's step says of it. */
export type Withdrawn = { recordedAt: string; by: string; kind: 'undone' | 'corrected'; why: string }

/**
 * Assesses a patient anew after something that staff had recorded was withdrawn. What its recording moved goes back as
 * far as the rules now say so and nothing has moved it since: a flag that ended by it stands again with its old act by.
 */
export async function reassessWithout(
  tx: Tx,
  whose: { clinicId: string; patientId: string },
  withdrawn: Withdrawn,
  now: Date,
): Promise<void> {
  const { clinicId, patientId } = whose
  const composed = await composeRecord(tx, patientId, now)
  if (!composed) throw new Error(`assessment: there is no patient ${patientId}`)
  const at = stored(now)
  const { findings } = assess(composed.record, await ruleSetAt(tx, clinicId, now), at)
  const moved = await flagsMovedAt(tx, patientId, withdrawn.recordedAt)
  const { rows: living } = await livingFlagsOf(tx, patientId)
  const { flags, steps } = givenBack(moved, living, findings, withdrawn, at)
  await saveFlags(tx, clinicId, flags, at)
  await addSteps(tx, clinicId, patientId, steps)
  await reassess(tx, patientId, now, composed)
}

type Key = { code: string; drain: string | null }
const isSame = (a: Key, b: Key) => a.code === b.code && a.drain === b.drain

/** Pure: the flags as they go back, and a step for each that a person should know of. */
export function givenBack(
  moved: readonly MovedFlag[],
  living: readonly KeptFlag[],
  findings: readonly Finding[],
  { recordedAt, by, kind, why }: Withdrawn,
  at: string,
): { flags: KeptFlag[]; steps: FlagStep[] } {
  const flags: KeptFlag[] = []
  const steps: FlagStep[] = []
  for (const { flag, steps: life } of moved) {
    if (life.some((one) => one.at > recordedAt)) continue
    if (living.some((other) => other.id !== flag.id && stands(other) && isSame(other, flag))) continue
    const finding = findings.find((one) => isSame(one, flag))
    const back = goesBack(flag, finding, life, recordedAt, kind === 'undone' ? at : null)
    if (!back) continue
    flags.push(back)
    if (flag.state !== 'closed') steps.push(step(back, at, kind, by, why))
  }
  return { flags, steps }
}

/**
 * How a flag stood before the assessment at `recordedAt`; null where the rules themselves move it, or it stays.
 * @param endsAt when a flag ends that rested on what was withdrawn; null: the rules say, who may owe a call for it
 */
function goesBack(
  flag: KeptFlag,
  finding: Finding | undefined,
  life: readonly FlagStep[],
  recordedAt: string,
  endsAt: string | null,
): KeptFlag | null {
  const then = life.filter((one) => one.at === recordedAt && one.by === null).map((one) => one.kind)
  if (flag.state === 'closed') return finding && then.length === 0 ? { ...flag, holdsStill: true } : null
  if (flag.state === 'ended')
    return finding && then.includes('ended') ? { ...flag, state: 'open', endedAt: null } : null
  if (!finding && endsAt && then.includes('opened')) return { ...flag, state: 'ended', endedAt: endsAt }
  if (then.includes('raised')) return lowered(flag, finding, life, recordedAt)
  if (!finding || !then.includes('eased')) return null
  const before = life.findLast((one) => one.at < recordedAt)
  const { urgency, since, actBy } = finding
  return before?.urgency === urgency && urgency !== flag.urgency ? { ...flag, urgency, since, actBy } : null
}

/**
 * A flag that nothing but the withdrawn thing had raised: as urgent as the rules now find it, and never less than it was
 * before, for nobody has spoken to the patient; null where the rules find it as urgent by themselves.
 */
function lowered(
  flag: KeptFlag,
  finding: Finding | undefined,
  life: readonly FlagStep[],
  recordedAt: string,
): KeptFlag | null {
  const earlier = life.filter((one) => one.at < recordedAt)
  const before = earlier.at(-1)
  if (!before) return null
  const began = earlier[earlier.findLastIndex(({ urgency }) => urgency !== before.urgency) + 1] ?? before
  const { urgency } = before
  const stood = { urgency, since: began.at, actBy: dueFrom(began.at, urgency) }
  const { urgency: found, since, actBy } = finding ?? stood
  const next = urgencyRank[found] < urgencyRank[urgency] ? stood : { urgency: found, since, actBy }
  return urgencyRank[next.urgency] < urgencyRank[flag.urgency] ? { ...flag, ...next } : null
}
