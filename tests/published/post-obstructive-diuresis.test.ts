import { describe, expect, it } from 'vitest'
import { PatientRecord, type Report } from '../../lib/domain/record.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { drain, on, told, vignette } from '../fixtures/vignettes/build.ts'

/**
 * Source: LITFL, Post-obstructive diuresis: '≥ 200 mL of urine for at least two consecutive hours', or 3000 mL or more in
 * 24 h. Confidence: published.
 */
function surges(reports: Report[], at: string): boolean {
  const { record } = vignette('', '', {
    why: '',
    drains: [drain('nephrostomy', { placedAt: on(1, '00:00') })],
    enrolledAt: on(1, '00:00'),
    reports,
    at: '',
    urgency: 'none',
  })
  const { findings } = assess(PatientRecord.parse(record), standardRuleSet, at)
  return findings.some((finding) => finding.code === 'output-surge')
}
const hourly = (volumes: number[]) => volumes.map((ml, i) => told(on(1, `0${i + 1}:00`), { ml }))

describe('post-obstructive diuresis', () => {
  it.each([
    [[200, 200], true],
    [[250, 300], true],
    [[200, 199], false],
    [[400], false],
    [[200, 150, 200], false],
    [[100, 200, 200], true],
    [[50, 50, 50, 50], false],
  ])('of hourly volumes %j mL: %s', (volumes, expected) => {
    expect(surges(hourly(volumes), on(1, `0${volumes.length}:30`))).toBe(expected)
  })
  it.each([
    [3000, true],
    [2999, false],
  ])('of %i mL in 24 h: %s', (ml, expected) => {
    expect(surges([told(on(2, '00:00'), { ml, total: true })], on(2, '00:30'))).toBe(expected)
  })
})
