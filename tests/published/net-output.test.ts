import { describe, expect, it } from 'vitest'
import { PatientRecord } from '../../lib/domain/record.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { drain, on, told, vignette } from '../fixtures/vignettes/build.ts'

/** Net output of day 1, midnight to midnight: one flush at 08:00, one emptying at the end. */
function netOf(emptiedMl: number, flushedMl: number): number | null | undefined {
  const { record } = vignette('', '', {
    why: '',
    drains: [drain('collection', { placedAt: on(1, '00:00') })],
    enrolledAt: on(1, '00:00'),
    reports: [told(on(1, '08:00'), { flush: flushedMl }), told(on(2, '00:00'), { ml: emptiedMl })],
    at: '',
    urgency: 'none',
  })
  return assess(PatientRecord.parse(record), standardRuleSet, on(2, '00:30')).drains[0]?.days[0]?.netMl
}

describe('net output', () => {
  it('is 17 for 25 emptied and 8 flushed', () => {
    // Source: IR drain leaflet, Denver (documents.pub), worked example 25 - 8 = 17 mL. Confidence: published.
    expect(netOf(25, 8)).toBeCloseTo(17, 9)
  })
  it('is negative where less comes back than went in, and stands as it is', () => {
    // Source: Univ. Utah IR, How to Flush & Record: 'net output will be a negative number; please record it as such'. Published.
    expect(netOf(3, 10)).toBeCloseTo(-7, 9)
    expect(netOf(0, 10)).toBeCloseTo(-10, 9)
  })
  it('is 0, not blank, where they are equal', () => {
    // Source: the same leaflet. Published.
    expect(netOf(10, 10)).toBe(0)
    expect(netOf(0, 0)).toBe(0)
  })
})
