import { type Fault, Refusal } from '../domain/problem.ts'
import type { NewStaffEvent } from '../domain/staff-event.ts'
import { drainsOf, type Recorded } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { addStaffEvent } from '../store/staff-events.ts'
import { refuseSameName } from './names-apart.ts'
import { reassess } from './reassess.ts'
import { settleVisits } from './settle-visits.ts'
import { isNewTube } from './tube.ts'

/** How far ahead of ours the clock of whoever records may be, in minutes. */
const AHEAD_MINUTES = 15

/**
 * Stores what was done to a drain, settles the visits that it answers, and assesses the patient anew. Gives its id
 * and when it happened. The caller has seen to it that the patient is the clinic's, and writes the access record.
 * @throws Refusal conflict, where a drain that had been out would lie beside another of its name; invalid-input, where the drain is not the patient's, the time has not come, or lies before the drain
 */
export async function recordDrainEvent(
  tx: Tx,
  who: Omit<Recorded, 'recordedAt'>,
  { at, drain, type, note }: NewStaffEvent,
  now: Date,
): Promise<{ id: string; at: string }> {
  const recorded: Recorded = { ...who, recordedAt: stored(now) }
  const { rows: drains } = await drainsOf(tx, who.patientId, recorded.recordedAt)
  const known = drains.find(({ id }) => id === drain)
  const faults: Fault[] = []
  if (!known)
    faults.push({
      field: 'drain',
      value: drain,
      message: `names no drain of this patient; accepted: ${drains.map(({ id }) => id).join(', ')}`,
    })
  if (Date.parse(at) > now.getTime() + AHEAD_MINUTES * 60_000)
    faults.push({ field: 'at', value: at, message: 'accepted: a time that has come' })
  // To the minute: a form tells no seconds.
  if (known && Date.parse(at) + 60_000 <= Date.parse(known.placedAt))
    faults.push({
      field: 'at',
      value: at,
      message: `is before the drain was placed; accepted: ${known.placedAt} or later`,
    })
  if (faults.length > 0) throw new Refusal('invalid-input', 'The event is not as it is accepted.', faults)

  const happened = stored(new Date(Math.min(Date.parse(at), now.getTime())))
  const event = { drainId: drain, at: happened, type, code: null, note: note || null, callbackId: null }
  const id = await addStaffEvent(tx, event, recorded)
  if (isNewTube(type)) await refuseSameName(tx, who.patientId, drain, recorded.recordedAt)
  await settleVisits(tx, { drain, type, at: happened }, recorded)
  await reassess(tx, who.patientId, now)
  return { id, at: happened }
}
