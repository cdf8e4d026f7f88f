import { applyCall, type Call, closingFaults } from '../assessment/flag-call.ts'
import { stands } from '../assessment/flag-life.ts'
import type { NewCallback } from '../domain/callback.ts'
import { findingLabels } from '../domain/labels.ts'
import { clockTime } from '../domain/local-time.ts'
import { outcomeFaults } from '../domain/outcome-fits.ts'
import { type Fault, Refusal } from '../domain/problem.ts'
import { clinicById } from '../store/clinics.ts'
import type { Recorded } from '../store/drains.ts'
import { addSteps, flagsByIds, livingFlagsOf, saveFlags } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { addStaffEvent } from '../store/staff-events.ts'

type ClosingCall = { id: string; said: NewCallback; lookAgainAt: string | null; closes: string[] }

/** Closes what the call names. The rules are told of it by staff events; of a call that was merely owed they need not know. */
export async function closeByCall(
  tx: Tx,
  { id: callbackId, said, lookAgainAt, closes }: ClosingCall,
  recorded: Recorded,
): Promise<string[]> {
  const { clinicId, patientId, recordedAt: at, recordedBy: by } = recorded
  const { agreed = [], note = '' } = said
  const call: Call = { at, by, closes, lookAgainAt, why: `Agreed: ${agreed.join(', ')}.` }
  const { rows } = await livingFlagsOf(tx, patientId)
  const closing = rows.filter((flag) => stands(flag) && (closes.includes(flag.id) || flag.state === 'owed'))
  const faults = [
    ...(await sayWhose(tx, recorded, closingFaults(rows, call))),
    ...outcomeFaults(closing, { agreed, lookAgainAt, note }, Date.parse(at)),
  ]
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The callback does not close what it names.', faults)
  const { flags, steps, closed } = applyCall(rows, call)
  await saveFlags(tx, clinicId, flags, at)
  await addSteps(tx, clinicId, patientId, steps)
  for (const { id, code, drain } of closed) {
    if (!closes.includes(id)) continue
    const event = { drainId: drain, at, type: 'flag-closed' as const, code, note: null, callbackId }
    await addStaffEvent(tx, event, recorded)
  }
  return closed.map(({ id }) => id)
}

/** Of a flag that another person closed meanwhile: who it was, and when. */
async function sayWhose(
  tx: Tx,
  { clinicId, patientId, recordedAt: at }: Recorded,
  faults: Fault[],
): Promise<Fault[]> {
  const ids = faults.flatMap(({ value }) => (typeof value === 'string' ? [value] : []))
  if (ids.length === 0) return faults
  const zone = (await clinicById(tx, clinicId))?.timeZone ?? 'UTC'
  const { rows: gone } = await flagsByIds(tx, patientId, ids)
  return Promise.all(
    faults.map(async (fault) => {
      const flag = gone.find(({ id }) => id === fault.value)
      if (!flag) return fault
      const name = findingLabels[flag.code]
      if (flag.state !== 'closed')
        return { ...fault, message: `${name} no longer stands: it has ended by itself` }
      const who = flag.closedBy === null ? null : await tx.staff.findUnique({ where: { id: flag.closedBy } })
      return {
        ...fault,
        message: `${name} was closed by ${who?.name ?? 'somebody'} at ${clockTime(flag.closedAt ?? at, zone)}; unmark it`,
      }
    }),
  )
}
