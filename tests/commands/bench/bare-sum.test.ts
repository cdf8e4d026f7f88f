import { expect, it } from 'vitest'
import { bareSum } from '../../../lib/commands/bench/bare-sum.ts'
import { asOf, patient } from '../../../lib/commands/bench/patient.ts'
import { assess } from '../../../lib/rules/assess.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'

it('sums what the rules sum: the bare loop leaves nothing out that it is compared with', () => {
  const record = patient(3, { days: 30, standingDays: 0 })
  const bare = [...bareSum(record).values()].reduce((sum, ml) => sum + ml, 0)
  const lastFlush = 10 // given at the last reading, so in no stretch yet
  const days = assess(record, standardRuleSet, asOf).drains[0]?.days ?? []
  const ours = days.reduce((sum, day) => sum + (day.netMl ?? 0), 0)
  expect(ours).toBeCloseTo(bare + lastFlush, 6)
})
