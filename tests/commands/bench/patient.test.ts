import { describe, expect, it } from 'vitest'
import { asOf, patient } from '../../../lib/commands/bench/patient.ts'
import { PatientRecord } from '../../../lib/domain/record.ts'
import { assess } from '../../../lib/rules/assess.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'

const ten = { days: 10, standingDays: 0 }

describe('the patients of the bench', () => {
  it('are valid records with four readings a day', () => {
    const record = PatientRecord.parse(patient(1, { days: 90, standingDays: 0 }))
    expect(record.reports.flatMap((report) => report.readings ?? [])).toHaveLength(360)
  })
  it('are the same for the same seed, and others for another', () => {
    expect(patient(5, ten)).toEqual(patient(5, ten))
    expect(patient(5, ten)).not.toEqual(patient(6, ten))
  })
  it('raise nothing where they are quiet, and three findings where they are not', () => {
    for (let seed = 1; seed <= 20; seed++) {
      expect(assess(patient(seed, { days: 30, standingDays: 0 }), standardRuleSet, asOf).findings).toEqual([])
      const codes = assess(patient(seed, { days: 30, standingDays: 7 }), standardRuleSet, asOf).findings.map(
        ({ code }) => code,
      )
      expect(codes.sort()).toEqual(['leak', 'output-decline', 'skin-broken'])
    }
  })
})
