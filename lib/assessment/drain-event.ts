import { type Fault, Refusal } from '../domain/problem.ts'
import type { NewStaffEvent } from '../domain/staff-event.ts'
import { drainsOf, type Recorded } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { addStaffEvent } from '../store/staff-events.ts'
import { reassess } from './reassess.ts'
import { settleVisits } from './settle-visits.ts'

/** How far ahead of ours the clock of whoever records may be, in minutes. */
const AHEAD_MINUTES = 15

/**
 * Stores what was done to a drain, settles the visits that it answers, and assesses the patient anew. Gives its id
 * and when it happened. The caller has seen to it that the patient is the clinic's, and writes the access record.
 * @throws Refusal invalid-input, where the drain is not the patient's or the time has not come
 */
export async function recordDrainEvent(
  tx: Tx,
  who: Omit<Recorded, 'recordedAt'>,
  { at, drain, type, note }: NewStaffEvent,
  now: Date,
): Promise<{ id: string; at: string }> {
  const recorded: Recorded = { ...who, recordedAt: stored(now) }
  const drains = (await drainsOf(tx, who.patientId, recorded.recordedAt)).rows.map(({ id }) => id)
  const faults: Fault[] = []
  if (!drains.includes(drain))
    faults.push({
      field: 'drain',
      value: drain,
      message: `names no drain of this patient; accepted: ${drains.join(', ')}`,
    })
  if (Date.parse(at) > now.getTime() + AHEAD_MINUTES * 60_000)
    faults.push({ field: 'at', value: at, message: 'accepted: a time that has come' })
  if (faults.length > 0) throw new Refusal('invalid-input', 'The event is not as it is accepted.', faults)

  const happened = stored(new Date(Math.min(Date.parse(at), now.getTime())))
  const event = { drainId: drain, at: happened, type, code: null, note: note || null, callbackId: null }
  const id = await addStaffEvent(tx, event, recorded)
  await settleVisits(tx, { drain, type, at: happened }, recorded)
  await reassess(tx, who.patientId, now)
  return { id, at: happened }
}
