import { isAlike } from '../domain/drain-change.ts'
import { Refusal } from '../domain/problem.ts'
import { drainsOf } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { staffEventsOf } from '../store/staff-events.ts'
import { isRemoved } from './tube.ts'

/**
 * Refuses that a drain comes to lie beside another of the same name: whoever empties them could not tell them apart.
 * Call it after what puts the drain in place again was stored.
 * @throws Refusal conflict
 */
export async function refuseSameName(tx: Tx, patientId: string, drainId: string, at: string): Promise<void> {
  const events = (await staffEventsOf(tx, patientId, at)).rows
  const lying = (await drainsOf(tx, patientId, at)).rows.filter(
    ({ id }) => !isRemoved(events.filter((event) => event.drainId === id)),
  )
  const own = lying.find(({ id }) => id === drainId)
  if (own && lying.some(({ id, label }) => id !== drainId && isAlike(label, own.label)))
    throw new Refusal(
      'conflict',
      `Another drain that is in place is called ${own.label}, too: correct the name of one of them first.`,
    )
}
