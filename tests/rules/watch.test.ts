import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { root } from '../../lib/commands/setup/root.mjs'
import type { RuleSet } from '../../lib/domain/ruleset.ts'
import { limitsOf, standardRuleSet } from '../../lib/rules/thresholds.ts'
import { Watch } from '../../lib/rules/watch.ts'

const ratio = standardRuleSet.thresholds.declineRatio
if (!ratio) throw new Error('the rule set that ships has no declineRatio')
const draft: RuleSet = {
  version: 'draft',
  thresholds: { ...standardRuleSet.thresholds, declineRatio: { ...ratio, value: 0.7 } },
}

describe('a watch', () => {
  it('gives every limit as it is, and tells of those alone that the other has otherwise', () => {
    const watch = new Watch(draft)
    const limits = watch.limitsOf(standardRuleSet)
    const plain = limitsOf(standardRuleSet)
    for (const name of Object.keys(plain) as (keyof typeof plain)[]) {
      watch.isRead = false
      expect(limits[name]).toBe(plain[name])
      expect(watch.isRead, name).toBe(name === 'declineRatio')
    }
  })
  it('of a drain with a limit of its own, which holds under both, tells nothing', () => {
    const watch = new Watch(draft)
    expect(watch.limitsOf(standardRuleSet, { declineRatio: 0.4 }).declineRatio).toBe(0.4)
    expect(watch.isRead).toBe(false)
  })
  it('is made once for a rule set', () => {
    const watch = new Watch(draft)
    expect(watch.limitsOf(standardRuleSet)).toBe(watch.limitsOf(standardRuleSet))
  })
})

it('no rule copies limits: what a watch tells of would be left behind', () => {
  const folder = path.join(root, 'lib/rules')
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  )
  expect(files.length).toBeGreaterThan(30)
  const copying = files.filter(
    (file) =>
      file !== 'thresholds.ts' &&
      /\.\.\.(?:\w+\.)*limits\b|Object\.\w+\((?:\w+\.)*limits\b/.test(
        readFileSync(path.join(folder, file), 'utf8'),
      ),
  )
  expect(copying).toEqual([])
})
