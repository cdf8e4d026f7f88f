import { recordAccess } from '../access/record.ts'
import { reassess } from '../assessment/reassess.ts'
import { now as clock } from '../clock.ts'
import { UNDO_SECONDS } from '../domain/callback.ts'
import { NewOrders } from '../domain/orders.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { overrideFaults } from '../rules/thresholds.ts'
import { answerOnce } from '../store/answered.ts'
import { addPlan, type CarePlan, planVersionsOf } from '../store/care-plans.ts'
import { type Tx, write } from '../store/index.ts'
import { countedAt, newId, stored } from '../store/rows.ts'
import { overrideLog } from './override-log.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/** `undoUntil`: until when whoever changed them may take it back. */
export type OrdersChanged = { version: number; undoUntil: string }

/**
 * Changes a drain's orders by adding a version; what was ordered before stays. The patient is assessed anew.
 * Without a key a repeat adds another version with the same orders.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function changeOrders(
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<OrdersChanged> {
  const request = {
    clinicId: staff.clinicId,
    source: staff.id,
    key,
    body: { orders: body, patientId, drainId },
  }
  const changed = await write((tx) =>
    answerOnce(tx, request, stored(now), () => change(tx, staff, patientId, drainId, body, now)),
  )
  tell(staff.clinicId, { patientId, kind: 'orders' })
  return changed
}

async function change(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  drainId: string,
  body: unknown,
  now: Date,
) {
  const orders = parse('orders', NewOrders, body)
  refuseOutOfRange(orders)
  await patientOf(tx, staff.clinicId, patientId)
  const at = stored(now)
  const versions = (await planVersionsOf(tx, patientId, at)).rows.filter((plan) => plan.drainId === drainId)
  const before = versions.findLast(countedAt(at))
  if (!before) throw new Refusal('not-found', 'This patient has no such drain.')

  // A version that was taken back keeps its number.
  const version = Math.max(...versions.map((plan) => plan.version)) + 1
  const plan = { ...amended(before, orders, { by: staff.id, at, why: orders.why }), version }
  await addPlan(tx, plan, { clinicId: staff.clinicId, patientId, recordedAt: at, recordedBy: staff.id })
  await reassess(tx, patientId, now)
  await recordAccess(tx, {
    clinicId: staff.clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'change-orders',
    patientId,
    what: `orders of drain ${drainId}, version ${plan.version}: ${orders.why}`,
  })
  return { version, undoUntil: stored(new Date(now.getTime() + UNDO_SECONDS * 1000)) }
}

function amended(
  before: CarePlan,
  orders: NewOrders,
  set: { by: string; at: string; why: string },
): Omit<CarePlan, 'version'> {
  const { course, drainage, flush } = orders
  const kept = <T>(wanted: T | undefined, earlier: T): T => (wanted === undefined ? earlier : wanted)
  return {
    drainId: before.drainId,
    validFrom: set.at,
    why: set.why,
    course: kept(course, before.course),
    drainage: kept(drainage, before.drainage),
    bagCapacityMl: kept(orders.bagCapacityMl, before.bagCapacityMl),
    markMl: kept(orders.markMl, before.markMl),
    vessel: kept(orders.vessel, before.vessel),
    flushAt: kept(orders.flushAt, before.flushAt),
    dressingType: kept(orders.dressingType, before.dressingType),
    removalPlan: kept(orders.removalPlan, before.removalPlan),
    logEveryHours: kept(orders.logEveryHours, before.logEveryHours),
    dressingEveryHours: kept(orders.dressingEveryHours, before.dressingEveryHours),
    flushVolumeMl: flush === undefined ? before.flushVolumeMl : (flush?.volumeMl ?? null),
    flushEveryHours: flush === undefined ? before.flushEveryHours : (flush?.everyHours ?? null),
    exchangeEveryDays: kept(orders.exchangeEveryDays, before.exchangeEveryDays),
    overrides: overrideLog(before.overrides, orders.overrides, set),
  }
}

function refuseOutOfRange({ overrides = {} }: NewOrders): void {
  const set = Object.fromEntries(Object.entries(overrides).filter(([, value]) => value != null))
  const faults = overrideFaults(set).map(({ name, message }) => ({
    field: `overrides.${name}`,
    value: set[name],
    message,
  }))
  if (faults.length > 0)
    throw new Refusal('invalid-input', 'The orders are not as they are accepted.', faults)
}
