import { isPressing, stands, step } from '../assessment/flag-life.ts'
import type { Agreed, AttemptOutcome, Callback } from '../domain/callback.ts'
import type { FlagStep } from '../domain/flag.ts'
import { outcomeFaults } from '../domain/outcome-fits.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import type { Recorded } from '../store/drains.ts'
import { addSteps, flagsSpokenAt, type KeptFlag, livingFlagsOf, saveFlags } from '../store/flags.ts'
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
    const moved = closed
      .filter(({ lookAgainAt }) => lookAgainAt === call.lookAgainAt && call.lookAgainAt !== null)
      .map((flag) => ({ ...flag, lookAgainAt: said.lookAgainAt }))
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
  const back = touched.flatMap((flag) => giveBack(flag, living))
  const returned = back.filter(({ id }) => touched.some((flag) => flag.id === id && !stands(flag)))
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

/** A flag of which nobody has spoken to the patient: it stands as it did, if no other of its kind stands meanwhile. */
function giveBack(flag: KeptFlag, living: readonly KeptFlag[]): KeptFlag[] {
  const unspoken = { ...flag, spokenAt: null }
  if (stands(flag)) return [unspoken]
  const isReplaced = living.some(
    (other) =>
      other.id !== flag.id && other.code === flag.code && other.drain === flag.drain && stands(other),
  )
  const holds = flag.state === 'closed' && flag.holdsStill
  if (isReplaced || !(holds || isPressing(flag.urgency))) return []
  return [
    {
      ...unspoken,
      state: holds ? 'open' : 'owed',
      closedAt: null,
      closedBy: null,
      closedFinding: null,
      lookAgainAt: null,
      endedAt: null,
      holdsStill: true,
    },
  ]
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
