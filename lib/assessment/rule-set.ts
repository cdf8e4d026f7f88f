import type { RuleSet } from '../domain/ruleset.ts'
import { parseRuleSet, standardRuleSet } from '../rules/thresholds.ts'
import type { Tx } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { ruleSetBodyAt } from '../store/rule-sets.ts'

const read = new Map<string, RuleSet>()

/** The rule set of a clinic in force at an instant: its own, or the one that ships. */
export async function ruleSetAt(tx: Tx, clinicId: string, at: Date): Promise<RuleSet> {
  const body = await ruleSetBodyAt(tx, clinicId, stored(at))
  if (body === null) return standardRuleSet
  const known = read.get(body)
  if (known) return known
  const rules = parseRuleSet(JSON.parse(body))
  read.set(body, rules)
  return rules
}
