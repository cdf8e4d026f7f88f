import { describe, expect, it } from 'vitest'
import type { Assessment } from '../../lib/domain/assessment.ts'
import { PatientRecord, type Report } from '../../lib/domain/record.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { drain, fourMornings, on, told, vignette } from '../fixtures/vignettes/build.ts'

/**
 * Sources: KDIGO, through StatPearls 161116 (published): stage 1 under 0.5 mL/kg/h for 6 to 12 h, stage 2 the same for
 * 12 h or more, stage 3 under 0.3 mL/kg/h for 24 h or anuria for 12 h; normal 0.5 to 1.0 mL/kg/h. NICE NG51, through
 * PMC6303460 (published, secondary copy): no urine for 18 h is high risk, for 12 to 18 h moderate. Both speak of all of a
 * person's urine, so they are set against the tube of an only kidney. The rest is arithmetic of ours.
 */
const onlyKidney = drain('nephrostomy', { onlyKidney: true })
const weights = [45, 60, 75, 90, 110]

function assessed(reports: Report[], at: string): Assessment {
  const { record } = vignette('', '', { why: '', drains: [onlyKidney], reports, at: '', urgency: 'none' })
  return assess(PatientRecord.parse(record), standardRuleSet, at)
}
const codes = (assessment: Assessment) => assessment.findings.map((finding) => finding.code)

describe.each(weights)('an only kidney of a person of %i kg', (kg) => {
  const normal = 1.0 * kg * 24 // mL a day
  const before = fourMornings(normal, { total: true })

  it('that gives nothing is told at 8 h, before KDIGO speaks of anuria and NICE of any risk (12 h)', () => {
    const reports = [
      ...before,
      told(on(6, '08:00'), { ml: normal, total: true }),
      told(on(6, '16:00'), { ml: 0 }),
    ]
    const stopped = assessed(reports, on(6, '16:30')).findings.find(
      (finding) => finding.code === 'output-stopped',
    )
    expect(stopped?.urgency).toBe('at-once')
    expect(Date.parse(stopped?.since ?? '') - Date.parse(on(6, '08:00'))).toBeLessThan(12 * 3_600_000)
  })
  it('is held for stopped only far below oliguria: 10 mL in 8 h is under a tenth of 0.5 mL/kg/h', () => {
    expect(10 / 8 / kg).toBeLessThan(0.05)
    const oliguria = 0.5 * kg * 8
    const reports = [
      ...before,
      told(on(6, '08:00'), { ml: normal, total: true }),
      told(on(6, '16:00'), { ml: oliguria }),
    ]
    expect(codes(assessed(reports, on(6, '16:30')))).not.toContain('output-stopped')
  })
  it('from normal at 1.0 mL/kg/h, raises a fall from just under 0.5 mL/kg/h over 24 h (KDIGO stage 2), not at it', () => {
    const day = 0.5 * kg * 24
    expect(
      codes(assessed([...before, told(on(6, '08:00'), { ml: day - 1, total: true })], on(6, '08:30'))),
    ).toContain('output-decline')
    expect(
      codes(assessed([...before, told(on(6, '08:00'), { ml: day, total: true })], on(6, '08:30'))),
    ).not.toContain('output-decline')
  })
  it('from normal at 0.5 mL/kg/h, says nothing yet at KDIGO stage 3 (under 0.3 for 24 h), only below 0.25', () => {
    // What the share of the usual cannot see: half of a low normal is lower than the limit per weight.
    const low = fourMornings(0.5 * kg * 24)
    expect(codes(assessed([...low, told(on(6, '08:00'), { ml: 0.29 * kg * 24 })], on(6, '08:30')))).toEqual(
      [],
    )
    expect(codes(assessed([...low, told(on(6, '08:00'), { ml: 0.24 * kg * 24 })], on(6, '08:30')))).toContain(
      'output-decline',
    )
  })
})
