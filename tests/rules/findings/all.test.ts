import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { FindingCode } from '../../../lib/domain/words.ts'
import { rules } from '../../../lib/rules/findings/all.ts'

describe('rules', () => {
  it('hold every code that a finding may have, and no other', () => {
    expect([...new Set(rules.map((rule) => rule.code))].sort()).toEqual([...FindingCode.options].sort())
  })
  it('hold each once: of two of one code, one is of the patient and one of a drain', () => {
    const keys = rules.map((rule) => `${rule.code} ${rule.scope}`)
    expect(new Set(keys).size).toBe(keys.length)
    expect(
      rules
        .filter((rule) => rule.scope === 'patient')
        .map((rule) => rule.code)
        .sort(),
    ).toEqual(['emergency-symptoms', 'infection-signs', 'severe-pain', 'unwell'])
  })
  it('judge log-missed last: it is judged beside what the others found', () => {
    expect(rules.at(-1)?.code).toBe('log-missed')
  })
  it('have a file each', () => {
    const files = readdirSync(new URL('../../../lib/rules/findings', import.meta.url))
    for (const code of FindingCode.options) expect(files).toContain(`${code}.ts`)
  })
})
