import { beforeEach, expect, it } from 'vitest'
import { isComplete } from '../../lib/domain/day-limit.ts'
import type { WorklistRow } from '../../lib/domain/worklist.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { write } from '../../lib/store/index.ts'
import { readWorklist } from '../../lib/worklist/index.ts'
import { slim } from '../../lib/worklist/slim-row.ts'
import { at, CLINIC, iso, nurse, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

it('says from when on a day is complete by the clinic’s own rules', async () => {
  expect((await readWorklist(nurse, at(1))).completeFrom).toBe(0.9)
  const { thresholds } = standardRuleSet
  const completeCoverage = { ...thresholds.completeCoverage, value: 0.75 }
  const rules = { version: 'own', thresholds: { ...thresholds, completeCoverage } }
  const recorded = { inForceFrom: iso(2), recordedAt: iso(2), recordedBy: nurse.id }
  await write((tx) =>
    tx.ruleSet.create({
      data: { id: 'own', clinicId: CLINIC, version: 'own', body: JSON.stringify(rules), ...recorded },
    }),
  )
  expect((await readWorklist(nurse, at(1.5))).completeFrom).toBe(0.9)
  expect((await readWorklist(nurse, at(3))).completeFrom).toBe(0.75)
})

it('leaves a day that is just complete complete, however short its figures are made', () => {
  const coverages = [0.9, 0.9 - 1e-10, 21.6 / 24, 0.8951, 0.8999]
  const days = coverages.map((coverage) => ({ date: '2026-03-02', netMl: 1, coverage, hours: 24 }))
  const row = { flags: [], drains: [{ id: 'd', label: 'd', days }] } as unknown as WorklistRow
  const after = slim(row).drains[0]?.days ?? []
  const judged = (of: readonly { coverage: number }[]) =>
    of.map(({ coverage }) => isComplete(coverage, { completeFrom: 0.9 }))
  expect(judged(after)).toEqual(judged(days))
})
