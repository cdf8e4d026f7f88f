import { recordAccess } from '../access/record.ts'
import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import type { SlowChanges } from '../domain/slow-change.ts'
import type { StaffMember } from '../domain/staff.ts'
import { slowChanges } from '../rules/slow-change.ts'
import { snapshot, write } from '../store/index.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'
import { isSameView } from './same-view.ts'

/**
 * The slow-change chart of each of a patient's drains, as of now. Asked for on demand, so that the page does not
 * carry it. It belongs to the view of the page that asks; without one it is a view of its own.
 * @throws Refusal not-found
 */
export async function readSlowChange(
  { id, name, clinicId }: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<SlowChanges> {
  const at = stored(now)
  const changes = await snapshot(async (tx) => {
    await isOfClinic(tx, clinicId, patientId)
    const composed = await composeRecord(tx, patientId, now)
    if (!composed) throw new Refusal('not-found', 'There is no such patient in this clinic.')
    return slowChanges(composed.record, await ruleSetAt(tx, clinicId, now), at)
  })
  if (!isSameView(id, patientId, now))
    await write((tx) =>
      recordAccess(tx, {
        clinicId,
        at,
        staffId: id,
        actor: name,
        action: 'view-patient',
        patientId,
        what: 'read the slow-change chart',
      }),
    )
  return changes
}
