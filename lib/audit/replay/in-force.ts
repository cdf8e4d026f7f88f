import type { RuleSet } from '../../domain/ruleset.ts'
import { limitsOf, parseRuleSet, standardRuleSet } from '../../rules/thresholds.ts'
import type { StoredRuleSet } from '../../store/rule-sets.ts'
import type { InForce } from './replay-patient.ts'

const ms = (instant: string) => Date.parse(instant)

/**
 * Which rule set was in force from when on, as the live assessment asks for it: of those recorded and in force by an instant
 * the one that came into force last; before the first the one that ships.
 * @throws RuleSetError where a stored one cannot run
 */
export function inForceOf(stored: readonly StoredRuleSet[], until: number): InForce {
  const sets: { from: number; rules: RuleSet }[] = [
    { from: Number.NEGATIVE_INFINITY, rules: standardRuleSet },
  ]
  const instants = stored.map((one) => Math.max(ms(one.inForceFrom), ms(one.recordedAt)))
  for (const from of [...new Set(instants)].filter((at) => at <= until).sort((a, b) => a - b)) {
    const holds = stored
      .filter((one) => ms(one.inForceFrom) <= from && ms(one.recordedAt) <= from)
      .toSorted((a, b) => ms(a.inForceFrom) - ms(b.inForceFrom) || ms(a.recordedAt) - ms(b.recordedAt))
      .at(-1)
    if (holds) sets.push({ from, rules: parseRuleSet(JSON.parse(holds.body)) })
  }
  return sets
}

/** The rule sets that were in force at some time in a period. */
export const inForceBetween = (inForce: InForce, from: number, until: number): RuleSet[] =>
  inForce
    .filter((one, i) => one.from <= until && (inForce[i + 1]?.from ?? Number.POSITIVE_INFINITY) > from)
    .map(({ rules }) => rules)

/** Whether two rule sets hold all records against the same numbers, whatever they are called. */
export function saysTheSame(a: RuleSet, b: RuleSet): boolean {
  const other: Readonly<Record<string, number>> = limitsOf(b)
  return Object.entries(limitsOf(a)).every(([name, value]) => other[name] === value)
}
