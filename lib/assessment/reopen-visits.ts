import type { Recorded } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { addVisitStep, isOpen, latestSteps, type VisitStep, visitStepsOf } from '../store/visits.ts'

/**
 * Opens the visits of a drain again that a withdrawn event had settled, as they stood before it: those of which the newest
 * step is of the event's own moment. Not where another visit of that kind has been opened since.
 */
export async function reopenVisits(
  tx: Tx,
  event: { drainId: string | null; recordedAt: string },
  recorded: Recorded,
): Promise<void> {
  const { rows } = await visitStepsOf(tx, recorded.patientId, recorded.recordedAt)
  const newest = latestSteps(rows)
  for (const settled of newest) {
    if (settled.drainId !== event.drainId || settled.recordedAt !== event.recordedAt || isOpen(settled))
      continue
    const { visitId: id, kind } = settled
    const before = rows.findLast((one) => one.visitId === id && isOpen(one))
    const isReplaced = newest.some((one) => isOf(one, settled) && isOpen(one))
    if (!before || isReplaced) continue
    const { state, bookedFor } = before
    const visit = { id, drain: settled.drainId, kind, state, bookedFor }
    await addVisitStep(tx, visit, 'the event that settled it was withdrawn', recorded)
  }
}

const isOf = (one: VisitStep, other: VisitStep): boolean =>
  one.drainId === other.drainId && one.kind === other.kind
