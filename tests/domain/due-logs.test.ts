import fc from 'fast-check'
import { expect, it } from 'vitest'
import { dueLogs, usualLogLimits } from '../../lib/domain/due-logs.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { anyInstant, anyRecord } from '../support/records.ts'

it('has the limits of the rule set that ships', () => {
  const { logGraceHours, logOnlyKidneyGraceHours, logNeverHours } = standardRuleSet.thresholds
  expect(usualLogLimits).toEqual({
    graceHours: logGraceHours?.value,
    onlyKidneyGraceHours: logOnlyKidneyGraceHours?.value,
    neverHours: logNeverHours?.value,
  })
})

it('troubles a nurse when the rules do, drain by drain', () => {
  fc.assert(
    fc.property(anyRecord, anyInstant, (record, at) => {
      const nowMs = Date.parse(at)
      const late = assess(record, standardRuleSet, at)
        .findings.filter(({ code }) => code === 'log-missed')
        .map(({ drain }) => drain)
      const ours = dueLogs(record, usualLogLimits, nowMs)
        .filter(({ upkeepMs }) => upkeepMs <= nowMs)
        .map(({ drain }) => drain)
      expect(ours.toSorted()).toEqual(late.toSorted())
    }),
    { numRuns: 300 },
  )
})
