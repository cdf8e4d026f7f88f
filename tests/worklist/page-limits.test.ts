import { expect, it } from 'vitest'
import type { Assessment } from '../../lib/domain/assessment.ts'
import { PatientRecord } from '../../lib/domain/record.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { pageLimits } from '../../lib/worklist/page-limits.ts'

const limits = (drain: object, usual: number | null, overrides: object = {}) => {
  const record = PatientRecord.parse({
    timeZone: 'America/Denver',
    enrolledAt: '2026-03-01T10:00:00Z',
    drains: [
      {
        id: 'd1',
        kind: 'nephrostomy',
        placedAt: '2026-02-27T09:00:00Z',
        plan: { logEveryHours: 24, dressingEveryHours: 48, overrides },
        ...drain,
      },
    ],
  })
  const assessment = {
    drains: [{ drain: 'd1', baselineMlPerDay: usual }],
  } as Assessment
  const { feverC, drains } = pageLimits(record, assessment, standardRuleSet)
  return { feverC, says: drains.d1?.map(({ says }) => says) }
}

it('a steady drain: half of usual, and at least 50 mL below it', () => {
  expect(limits({}, 410).says).toEqual(['call below 205', 'limit 3000'])
  expect(limits({}, 80).says).toEqual(['call below 30', 'limit 3000'])
})
it('no level is drawn where none can be reached or the usual is not known', () => {
  expect(limits({}, 40).says).toEqual(['limit 3000'])
  expect(limits({}, null).says).toEqual(['limit 3000'])
})
it('the drain’s own thresholds are used, and the lowest fever of all', () => {
  expect(limits({}, 400, { declineRatio: 0.4, feverC: 37.8 })).toEqual({
    feverC: 37.8,
    says: ['call below 160', 'limit 3000'],
  })
})
it('a resolving drain: twice its usual, and where removal comes into question', () => {
  expect(limits({ kind: 'collection' }, 100).says).toEqual(['call above 200', 'removal check under 10'])
  expect(limits({ kind: 'bulb' }, null).says).toEqual(['removal check under 30'])
  expect(limits({ kind: 'pleural' }, 20).says).toEqual(['call above 70'])
})
it('bile: its own ceiling', () => {
  expect(limits({ kind: 'biliary' }, 474).says).toEqual(['call below 237', 'limit 1000'])
})
