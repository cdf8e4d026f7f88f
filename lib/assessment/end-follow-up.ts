import type { EndFollowUp } from '../domain/follow-up.ts'
import type { Recorded } from '../store/drains.ts'
import { addFollowUpStep, endedAt, isInFollowUp } from '../store/follow-up.ts'
import { dropHold } from '../store/holds.ts'
import type { Tx } from '../store/index.ts'

/**
 * Ends a patient's follow-up within the caller's transaction: the row leaves the worklist, nothing is due any more, and no
 * reminder that waits goes out. Who may do so is asked before it.
 */
export async function endWithin(tx: Tx, { reason, why }: EndFollowUp, recorded: Recorded): Promise<void> {
  const { patientId, recordedAt } = recorded
  await addFollowUpStep(tx, { step: 'ended', reason, why: why || null }, recorded)
  await endedAt(tx, patientId, recordedAt, reason)
  await dropHold(tx, patientId)
}

/**
 * A death that was told as an event outside the clinic ends follow-up, if it goes on: else messages would go on to a home where
 * somebody has died. Says whether it did.
 */
export async function endForDeath(tx: Tx, recorded: Recorded): Promise<boolean> {
  if (!(await isInFollowUp(tx, recorded.patientId))) return false
  await endWithin(tx, { reason: 'died', why: 'Told as an event outside the clinic.' }, recorded)
  return true
}
