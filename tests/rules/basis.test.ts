import { expect, test } from 'vitest'
import { FindingCode } from '../../lib/domain/words.ts'
import { contradictions, hazards } from '../../lib/rules/basis.ts'

test('every finding names a hazard and what it cannot see', () => {
  expect(Object.keys(hazards).sort()).toEqual([...FindingCode.options].sort())
  for (const { hazard, cannotSee } of Object.values(hazards)) {
    expect(hazard).toMatch(/\.$/)
    expect(cannotSee).toMatch(/\.$/)
  }
})

test('a contradiction names at least two figures and the choice', () => {
  for (const { sources, chosen } of contradictions) {
    expect(sources).toMatch(/\d\D+\d/)
    expect(chosen).not.toBe('')
  }
})
