import { withOtherTime, withoutCall } from '../assessment/call-corrected.ts'
import { isPressing, stands, step } from '../assessment/flag-life.ts'
import type { Agreed, AttemptOutcome, Callback } from '../domain/callback.ts'
import type { FlagStep } from '../domain/flag.ts'
import { outcomeFaults } from '../domain/outcome-fits.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { Recorded } from '../store/drains.ts'
import {
  addSteps,
  flagsSpokenAt,
  type KeptFlag,
  livingFlagsOf,
  saveFlags,
  stepsSince,
} from '../store/flags.ts'
import type { Tx } from '../store/index.ts'

type Said = { outcome: AttemptOutcome; agreed: Agreed[]; lookAgainAt: string | null; note: string }
type Correction = { call: Callback; said: Said; why: string }

/**
 * Moves what hangs on a call to what is now on record of it, with a step of each flag. Reached nobody after all: what it
 * closed comes back, at its old deadline. Another time to look again: what it closed waits for that.
 * @returns the flags that came back
 * @throws Refusal invalid-input (the outcome no longer fits what the call closed)
 */
export async function correctFlags(
  tx: Tx,
  { call, said, why }: Correction,
  recorded: Recorded,
): Promise<string[]> {
  if (call.outcome !== 'reached') return []
  const { patientId, recordedAt: at, recordedBy: by } = recorded
  const { rows: touched } = await flagsSpokenAt(tx, patientId, call.at)
  const says = `The record of the call was corrected: ${why}`
  if (said.outcome === 'reached') {
    const closed = touched.filter((flag) => flag.state === 'closed' && flag.closedAt === call.at)
    refuseMisfit(closed, call, said)
    if (said.lookAgainAt === call.lookAgainAt) return []
    const moved = withOtherTime(touched, call, said.lookAgainAt)
    await save(
      tx,
      recorded,
      moved,
      moved.map((flag) =>
        step(flag, at, 'corrected', by, `${says} Look again at ${said.lookAgainAt ?? 'no time'}.`),
      ),
    )
    return []
  }
  const { rows: living } = await livingFlagsOf(tx, patientId)
  const { rows: steps } = await stepsSince(tx, patientId, '')
  const back = withoutCall(touched, living, steps, call.at)
  const returned = back.filter((flag) =>
    touched.some((was) => was.id === flag.id && (!stands(was) || was.urgency !== flag.urgency)),
  )
  await save(
    tx,
    recorded,
    back,
    returned.map((flag) => step(flag, at, 'returned', by, `Nobody was reached after all. ${says}`)),
  )
  return returned.map(({ id }) => id)
}

async function save(
  tx: Tx,
  { clinicId, patientId, recordedAt }: Recorded,
  flags: KeptFlag[],
  steps: FlagStep[],
): Promise<void> {
  await saveFlags(tx, clinicId, flags, recordedAt)
  await addSteps(tx, clinicId, patientId, steps)
}

function refuseMisfit(closed: readonly KeptFlag[], call: Callback, said: Said): void {
  const closing = closed.map(({ code, urgency, holdsStill }) => ({
    code,
    urgency,
    state: holdsStill ? ('open' as const) : ('owed' as const),
  }))
  const faults: Fault[] = outcomeFaults(closing, said, Date.parse(call.at))
  const needsLook = closed.some(({ urgency, holdsStill }) => holdsStill && isPressing(urgency))
  if (needsLook && said.lookAgainAt === null && call.lookAgainAt !== null)
    faults.push({
      field: 'lookAgainAt',
      message: 'is missing; needed since what the call closed still holds',
    })
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'What the call closed needs an outcome that fits.', faults)
}
