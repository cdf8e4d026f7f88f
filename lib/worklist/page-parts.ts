import type { FollowUp } from '../domain/follow-up.ts'
import type { OrdersVersion, PageVisit, PatientPage } from '../domain/patient-page.ts'
import { Overrides } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { type overridable, standardRuleSet } from '../rules/thresholds.ts'
import type { CarePlan } from '../store/care-plans.ts'
import { endThatHolds, type FollowUpStep } from '../store/follow-up.ts'
import type { Patient } from '../store/patients.ts'
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

/** One version of a drain's orders, with what the rules do not read of it. */
export function versionOf(plan: CarePlan, nameOf: NameOf): OrdersVersion {
  const { version, validFrom, why, vessel, flushAt, dressingType, removalPlan } = plan
  return {
    version,
    validFrom,
    why,
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
