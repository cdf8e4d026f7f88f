import type { StaffEventType } from '../domain/words.ts'
import type { Recorded } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { addVisitStep, isOpen, latestSteps, type VisitStep, visitStepsOf } from '../store/visits.ts'

/** How much later than a new tube an exchange may be booked that it answers all the same. */
const SAME_VISIT_MS = 24 * 3_600_000

type Event = { drain: string; type: StaffEventType; at: string }

/**
 * Settles the open visits of a drain that an event answers, so that no booking is left behind: a removal is then
 * done and an exchange off; a new tube makes the exchange done that was asked for, or booked for about then.
 */
export async function settleVisits(tx: Tx, event: Event, recorded: Recorded): Promise<void> {
  const { rows } = await visitStepsOf(tx, recorded.patientId, recorded.recordedAt)
  for (const visit of latestSteps(rows).filter((one) => one.drainId === event.drain && isOpen(one))) {
    const state = answered(visit, event)
    if (state === null) continue
    const { visitId: id, kind, bookedFor } = visit
    await addVisitStep(
      tx,
      { id, drain: event.drain, kind, state, bookedFor },
      `recorded: ${event.type}`,
      recorded,
    )
  }
}

function answered({ kind, state, bookedFor }: VisitStep, { type, at }: Event): 'done' | 'cancelled' | null {
  if (type === 'removed') return kind === 'removal' ? 'done' : 'cancelled'
  if (kind !== 'exchange' || (type !== 'exchanged' && type !== 'replaced')) return null
  if (state === 'requested' || bookedFor === null) return 'done'
  return Date.parse(bookedFor) - Date.parse(at) <= SAME_VISIT_MS ? 'done' : null
}
