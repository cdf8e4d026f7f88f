import type { FlagStep } from '../domain/flag.ts'
import { urgencyHours } from '../domain/words.ts'
import { addSteps, type KeptFlag, livingFlagsOf, saveFlags } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { type Moves, stands, step } from './flag-life.ts'

/**
 * What moves while a patient is in hospital: a report can open or raise a flag, but none ends or becomes owed, whatever
 * runs out meanwhile. Staff confirm the drains first. Pure.
 */
export function keptInHospital(before: readonly KeptFlag[], { flags, steps }: Moves): Moves {
  const stood = new Set(before.filter(({ state }) => state === 'open').map(({ id }) => id))
  const lapsing = new Set(
    flags
      .filter(({ id, state }) => stood.has(id) && (state === 'ended' || state === 'owed'))
      .map(({ id }) => id),
  )
  return {
    flags: flags.filter(({ id }) => !lapsing.has(id)),
    steps: steps.filter(({ flagId }) => !lapsing.has(flagId)),
  }
}

/** Says of each standing flag that its deadline rests. */
export async function pauseFlags(
  tx: Tx,
  whose: { clinicId: string; patientId: string },
  at: string,
  by: string,
  why: string,
): Promise<void> {
  const standing = (await livingFlagsOf(tx, whose.patientId)).rows.filter(stands)
  const steps = standing.map((flag): FlagStep => step(flag, at, 'paused', by, why))
  await addSteps(tx, whose.clinicId, whose.patientId, steps)
}

/**
 * Lets the deadlines of the flags that stand run on: each act by is counted anew from the moment at which staff
 * confirmed the drains. Call it after the assessment of that moment.
 */
export async function resumeFlags(
  tx: Tx,
  whose: { clinicId: string; patientId: string },
  at: string,
  by: string,
  why: string,
): Promise<void> {
  const next = resumed((await livingFlagsOf(tx, whose.patientId)).rows, at)
  await saveFlags(tx, whose.clinicId, next, at)
  const steps = next.map((flag) => step(flag, at, 'resumed', by, why))
  await addSteps(tx, whose.clinicId, whose.patientId, steps)
}

/** The flags that stand, each act by counted anew from an instant. Pure. */
export const resumed = (flags: readonly KeptFlag[], at: string): KeptFlag[] =>
  flags.filter(stands).map((flag) => ({ ...flag, actBy: countedFrom(at, flag) }))

const countedFrom = (at: string, { urgency }: KeptFlag): string =>
  new Date(Date.parse(at) + (urgencyHours[urgency] ?? 0) * 3_600_000).toISOString()
