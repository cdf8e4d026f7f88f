import { expect, it } from 'vitest'
import { thresholdGroups } from '../../../app/ui/audit/rules/threshold-words.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'

it('every threshold has words of its own, in one group', () => {
  const entries = thresholdGroups.flatMap(({ thresholds }) => Object.entries(thresholds))
  expect(entries.map(([name]) => name).sort()).toEqual(Object.keys(standardRuleSet.thresholds).sort())
  expect(new Set(entries.map(([, words]) => words)).size).toBe(entries.length)
})
