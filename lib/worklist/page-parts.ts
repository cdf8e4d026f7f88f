import type { FollowUp } from '../domain/follow-up.ts'
import { orderChanges } from '../domain/order-changes.ts'
import type { OrdersVersion, PageVisit, PatientPage } from '../domain/patient-page.ts'
import { Overrides } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import type { KeptStaffEvent } from '../domain/staff-event.ts'
import { type overridable, standardRuleSet } from '../rules/thresholds.ts'
import type { PlanVersion } from '../store/care-plans.ts'
import { endThatHolds, type FollowUpStep } from '../store/follow-up.ts'
import type { Patient } from '../store/patients.ts'
import { grouped } from '../store/rows.ts'
import { type EventRow, isReason } from '../store/staff-events.ts'
import { latestSteps, type VisitStep } from '../store/visits.ts'

/** Names a member of staff by id. */
type NameOf = (id: string | null) => string | null

/** How follow-up stands, by the patient's row and its steps. */
export function followUpOf(
  { followUpEndedAt, followUpEnd }: Patient,
  steps: readonly FollowUpStep[],
  nameOf: NameOf,
): FollowUp {
  const standing = followUpEndedAt === null ? null : endThatHolds(steps)
  const asked = standing?.asked ?? null
  return {
    endedAt: followUpEndedAt,
    endedBy: nameOf(standing?.end.recordedBy ?? null),
    reason: followUpEnd,
    why: standing?.end.why ?? null,
    undoAskedBy: nameOf(asked?.recordedBy ?? null),
    undoAskedById: asked?.recordedBy ?? null,
    undoWhy: asked?.why ?? null,
  }
}

/** The visits as they stand, the latest changed first. */
export const visitsOf = (steps: readonly VisitStep[], nameOf: NameOf): PageVisit[] =>
  latestSteps(steps)
    .toSorted((a, b) => Date.parse(b.recordedAt) - Date.parse(a.recordedAt))
    .map(({ visitId, drainId, kind, state, bookedFor, recordedAt, recordedBy, why }) => ({
      id: visitId,
      drain: drainId,
      kind,
      state,
      bookedFor,
      changedAt: recordedAt,
      changedBy: nameOf(recordedBy) ?? recordedBy,
      why,
    }))

/** The orders of each drain, the version in force first, and the versions that were taken back, the latest first. */
export function ordersOf(
  plans: readonly PlanVersion[],
  nameOf: NameOf,
): Pick<PatientPage, 'orders' | 'withdrawnOrders'> {
  const standing = plans.filter(({ withdrawnAt }) => withdrawnAt === null)
  const orders = Object.fromEntries(
    [...grouped(standing, ({ drainId }) => drainId)].map(([drain, versions]) => [
      drain,
      versions.map((plan, i) => versionOf(plan, versions[i - 1], nameOf)).reverse(),
    ]),
  )
  const withdrawnOrders = plans.flatMap((plan) => {
    const { drainId: drain, withdrawnAt, withdrawnBy } = plan
    if (withdrawnAt === null) return []
    const before = standing.findLast((one) => one.drainId === drain && one.version < plan.version)
    const by = nameOf(withdrawnBy) ?? 'somebody'
    return [{ ...versionOf(plan, before, nameOf), drain, withdrawnAt, withdrawnBy: by }]
  })
  return { orders, withdrawnOrders: withdrawnOrders.reverse() }
}

function versionOf(plan: PlanVersion, before: PlanVersion | undefined, nameOf: NameOf): OrdersVersion {
  const { version, validFrom, recordedAt, recordedBy, why, vessel, flushAt, dressingType, removalPlan } = plan
  return {
    version,
    validFrom,
    recordedAt,
    by: nameOf(recordedBy) ?? recordedBy,
    byId: recordedBy,
    why,
    changes: before ? orderChanges(before, plan) : [],
    vessel,
    flushAt,
    dressingType,
    removalPlan,
    overrides: Overrides.keyof().options.flatMap((name) => {
      const set = plan.overrides?.[name]
      return set ? [{ name, ...set, by: nameOf(set.by) ?? set.by }] : []
    }),
  }
}

/** What staff did to the drains, the latest recorded first, each withdrawn one with the entry that says why. */
export function eventsOf(rows: readonly EventRow[], nameOf: NameOf): KeptStaffEvent[] {
  const reasons = rows.filter(isReason)
  return rows
    .filter((row) => row.type !== 'flag-closed' && !isReason(row))
    .map((row) => {
      const reason = reasons.find(
        (one) =>
          one.recordedAt === row.withdrawnAt &&
          one.drainId === row.drainId &&
          one.type === row.type &&
          one.at === row.at,
      )
      return {
        id: row.id,
        drain: row.drainId,
        at: row.at,
        type: row.type,
        code: row.code,
        note: row.note,
        recordedAt: row.recordedAt,
        by: nameOf(row.recordedBy) ?? row.recordedBy,
        byId: row.recordedBy,
        callback: row.callbackId,
        withdrawnAt: row.withdrawnAt,
        withdrawnBy: nameOf(row.withdrawnBy),
        withdrawnWhy: reason?.note ?? null,
      }
    })
    .reverse()
}

/** What the clinic's rule set says where a drain has no threshold of its own, and within what range one may be set. */
export const ownThresholds = ({ thresholds }: RuleSet): PatientPage['thresholds'] => {
  const of = (name: (typeof overridable)[number]) => {
    const known = thresholds[name] ?? standardRuleSet.thresholds[name]
    if (!known) throw new Error(`rule set: there is no threshold ${name}`)
    const { value, min, max, unit } = known
    return { value, min, max, unit }
  }
  return {
    declineRatio: of('declineRatio'),
    stoppedHours: of('stoppedHours'),
    feverC: of('feverC'),
    severePain: of('severePain'),
  }
}
