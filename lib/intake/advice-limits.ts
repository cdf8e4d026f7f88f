import { ruleSetAt } from '../assessment/rule-set.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { limitsOf, standardRuleSet } from '../rules/thresholds.ts'
import type { Tx } from '../store/index.ts'
import type { Composed } from '../store/record.ts'

/**
 * The thresholds for advice: the most cautious of those of the drains in place, each with its own overrides, as
 * the rules take it for a finding of the whole patient. A rule set that cannot be read must not
 * keep a person from their page: the one that ships stands in for it.
 */
export async function adviceLimits(
  tx: Tx,
  { patient, record }: Composed,
  inPlace: readonly string[],
  now: Date,
): Promise<{ feverC: number; severePain: number }> {
  const rules = await ruleSetAt(tx, patient.clinicId, now).catch((): RuleSet => standardRuleSet)
  const drains = record.drains.filter(({ id }) => inPlace.includes(id))
  const all =
    drains.length > 0 ? drains.map(({ plan }) => limitsOf(rules, plan.overrides)) : [limitsOf(rules)]
  return {
    feverC: Math.min(...all.map(({ feverC }) => feverC)),
    severePain: Math.min(...all.map(({ severePain }) => severePain)),
  }
}
