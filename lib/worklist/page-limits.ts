import type { Assessment } from '../domain/assessment.ts'
import type { DayLimit, PageLimits } from '../domain/day-limit.ts'
import { isBiliary, isUrinary, usualCourse } from '../domain/kinds.ts'
import type { Drain, PatientRecord } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { type Limits, limitsOf } from '../rules/thresholds.ts'

/** The levels that a patient's page draws, each computed from the rule set, the drain's own thresholds and its usual output. */
export function pageLimits({ drains }: PatientRecord, assessment: Assessment, rules: RuleSet): PageLimits {
  return {
    feverC: Math.min(
      limitsOf(rules).feverC,
      ...drains.map(({ plan }) => limitsOf(rules, plan.overrides).feverC),
    ),
    completeFrom: limitsOf(rules).completeCoverage,
    drains: Object.fromEntries(
      drains.map((drain) => {
        const usual = assessment.drains.find((one) => one.drain === drain.id)?.baselineMlPerDay ?? null
        return [drain.id, dayLimits(drain, usual, limitsOf(rules, drain.plan.overrides))]
      }),
    ),
  }
}

function dayLimits(drain: Drain, usual: number | null, limits: Limits): DayLimit[] {
  const course = drain.course ?? usualCourse[drain.kind]
  return [
    ...(course === 'steady' ? decline(usual, limits) : [...surge(usual, limits), ...removal(drain, limits)]),
    ...(isUrinary(drain.kind) ? [above(limits.surgeMlPerDay, 'limit')] : []),
    ...(isBiliary(drain.kind) ? [above(limits.biliaryHighMl, 'limit')] : []),
  ]
}

const above = (mlPerDay: number, name: string): DayLimit => ({
  mlPerDay,
  side: 'above',
  says: `${name} ${Math.round(mlPerDay)}`,
})

function decline(usual: number | null, { declineRatio, declineMinMl }: Limits): DayLimit[] {
  const mlPerDay = usual === null ? 0 : Math.min(usual * declineRatio, usual - declineMinMl)
  return mlPerDay > 0 ? [{ mlPerDay, side: 'below', says: `call below ${Math.round(mlPerDay)}` }] : []
}

function surge(usual: number | null, { resolvingSurgeRatio, resolvingSurgeMinMl }: Limits): DayLimit[] {
  return usual === null
    ? []
    : [above(Math.max(usual * resolvingSurgeRatio, usual + resolvingSurgeMinMl), 'call above')]
}

function removal({ kind }: Drain, { removalCollectionMl, removalBulbMl }: Limits): DayLimit[] {
  const mlPerDay = kind === 'collection' ? removalCollectionMl : kind === 'bulb' ? removalBulbMl : null
  return mlPerDay === null ? [] : [{ mlPerDay, side: 'below', says: `removal check under ${mlPerDay}` }]
}
