import { describe, expect, it } from 'vitest'
import { PatientRecord } from '../../lib/domain/record.ts'
import { assess } from '../../lib/rules/assess.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { drain, on, told, vignette } from '../fixtures/vignettes/build.ts'

/**
 * Source: NEWS2 (RCP 2017, Chart 1), temperature: 3 up to 35.0; 1 from 35.1 to 36.0; 0 from 36.1 to 38.0; 1 from 38.1 to
 * 39.0; 2 from 39.1 °C. Confidence: published. The fever threshold of the rules is 38.0 °C (leaflet, published).
 */
const news2 = (tenths: number) => {
  if (tenths <= 350) return 3
  if (tenths <= 360) return 1
  if (tenths <= 380) return 0
  return tenths <= 390 ? 1 : 2
}

function isFever(temperature: number): boolean {
  const { record } = vignette('', '', {
    why: '',
    drains: [drain('nephrostomy')],
    reports: [told(on(1, '12:00'), { temperature })],
    at: '',
    urgency: 'none',
  })
  const { findings } = assess(PatientRecord.parse(record), standardRuleSet, on(1, '12:30'))
  return findings.some((finding) => finding.code === 'infection-signs')
}

const tenths = Array.from({ length: 151 }, (_, i) => 300 + i) // 30.0 to 45.0 °C, all that a record may hold

describe('fever against the temperature bands of NEWS2', () => {
  it('raises every temperature that NEWS2 scores for heat', () => {
    for (const t of tenths.filter((t) => t > 360 && news2(t) > 0))
      expect(isFever(t / 10), `${t / 10} °C`).toBe(true)
  })
  it('is more cautious by the one tenth at 38.0, which NEWS2 scores 0', () => {
    expect(tenths.filter((t) => t > 360 && news2(t) === 0 && isFever(t / 10))).toEqual([380])
  })
  it('does not see the cold bands, which NEWS2 scores 1 and 3', () => {
    for (const t of tenths.filter((t) => t <= 360)) expect(isFever(t / 10), `${t / 10} °C`).toBe(false)
  })
  it('agrees with the conversions that leaflets print: 38.0 is 100.4 °F, 38.5 is 101.3 °F', () => {
    // Arithmetic of ours. One surgical leaflet prints 101 °F as 38 °C, which is wrong.
    const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9
    expect(celsius(100.4)).toBeCloseTo(38.0, 9)
    expect(celsius(101.3)).toBeCloseTo(38.5, 9)
    expect(standardRuleSet.thresholds.feverC?.value).toBe(38)
  })
})
