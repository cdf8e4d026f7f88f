import { describe, expect, it } from 'vitest'
import { factsOf } from '../../../lib/commands/bench/engine-facts.ts'
import { generalEngine, ruleCount } from '../../../lib/commands/bench/general-engine.ts'
import { asOf, patient } from '../../../lib/commands/bench/patient.ts'
import { assess } from '../../../lib/rules/assess.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'

const decide = generalEngine()

describe('the general engine of the bench', () => {
  it.each([0, 7, 30])(
    'decides as the rules do on records with findings that stand for %i days',
    async (standingDays) => {
      for (let seed = 1; seed <= 10; seed++) {
        const record = patient(seed, { days: 60, standingDays })
        const { findings, drains } = assess(record, standardRuleSet, asOf)
        const found = await decide(factsOf(record, asOf, drains[0]?.baselineMlPerDay ?? null))
        expect(Object.fromEntries(found)).toEqual(
          Object.fromEntries(findings.map(({ code, urgency }) => [code, urgency])),
        )
      }
    },
  )
  it('has a rule for every form of every finding', () => {
    expect(ruleCount).toBeGreaterThanOrEqual(40)
  })
})
