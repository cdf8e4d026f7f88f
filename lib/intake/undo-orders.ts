import { recordAccess } from '../access/record.ts'
import { reassessWithout } from '../assessment/give-back.ts'
import { now as clock } from '../clock.ts'
import { UNDO_SECONDS } from '../domain/callback.ts'
import { isCorrectionReason, OF_A_CORRECTION } from '../domain/drain-change.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { type PlanVersion, planVersionsOf, withdrawPlan } from '../store/care-plans.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { patientOf } from './patient-of.ts'

export type OrdersWithdrawn = { version: number; withdrawnAt: string }

/**
 * Takes a change of a drain's orders back within its minute: the version before it is in force again, and the patient is
 * assessed under that. It stays readable. Whoever presses twice has taken it back once.
 * @throws Refusal not-found, not-allowed (somebody else's), conflict (the minute is over; newer orders; the first orders; those
 *   of a corrected kind)
 */
export async function undoOrders(
  staff: StaffMember,
  patientId: string,
  drainId: string,
  version: number,
  now: Date = clock(),
): Promise<OrdersWithdrawn> {
  const undone = await write((tx) => undo(tx, staff, patientId, drainId, version, now))
  tell(staff.clinicId, { patientId, kind: 'orders' })
  return undone
}

async function undo(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  drainId: string,
  version: number,
  now: Date,
): Promise<OrdersWithdrawn> {
  const { clinicId } = staff
  const at = stored(now)
  await patientOf(tx, clinicId, patientId)
  const versions = (await planVersionsOf(tx, patientId, at)).rows.filter((one) => one.drainId === drainId)
  const plan = versions.find((one) => one.version === version)
  if (!plan) throw new Refusal('not-found', 'This drain has no such version of its orders.')
  if (plan.recordedBy !== staff.id) {
    const by = (await staffNamesOf(tx, clinicId)).get(plan.recordedBy) ?? 'Somebody else'
    throw new Refusal(
      'not-allowed',
      `Only ${by}, who changed these orders, can take the change back; you can change them again.`,
    )
  }
  if (plan.withdrawnAt !== null) return { version, withdrawnAt: plan.withdrawnAt }
  refuseIfOver(versions, plan, now)

  await withdrawPlan(tx, plan, at, staff.id)
  const why = 'The change of orders was taken back within its minute.'
  const { recordedAt } = plan
  await reassessWithout(tx, { clinicId, patientId }, { recordedAt, by: staff.id, kind: 'undone', why }, now)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'change-orders',
    patientId,
    what: `took back the orders of drain ${drainId}, version ${version}`,
  })
  return { version, withdrawnAt: at }
}

function refuseIfOver(versions: readonly PlanVersion[], plan: PlanVersion, now: Date): void {
  const standing = versions.filter(({ withdrawnAt }) => withdrawnAt === null)
  if (standing.length === 1)
    throw new Refusal('conflict', 'These are the drain’s first orders: change them instead.')
  if (isCorrectionReason(plan.why)) throw new Refusal('conflict', OF_A_CORRECTION)
  if (standing.at(-1)?.version !== plan.version)
    throw new Refusal('conflict', 'Newer orders were given since: change those instead.')
  if (now.getTime() - Date.parse(plan.recordedAt) >= UNDO_SECONDS * 1000)
    throw new Refusal(
      'conflict',
      'The minute in which a change of orders can be taken back is over: change the orders again instead.',
    )
}
