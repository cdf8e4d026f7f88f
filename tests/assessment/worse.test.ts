import { describe, expect, it } from 'vitest'
import { worseThan } from '../../lib/assessment/worse.ts'
import { evidence, finding } from './flags.ts'

const output = (at: number, ...volumes: number[]) =>
  finding({ evidence: volumes.map((volume, i) => evidence('reading', volume, at - i)) })

describe('a finding is worse', () => {
  it.each([
    ['at a higher urgency', finding({ urgency: 'at-once' }), finding(), /More urgent/],
    ['with a lower output', output(5, 90), output(1, 140), /output 90 mL, then 140/],
    ['with a lower output of more readings', output(9, 30, 30, 30, 30), output(1, 140), /output 30 mL/],
    [
      'with a lower net output, whatever was emptied',
      finding({ evidence: [evidence('reading', 500, 5), evidence('net output', 100, 5)] }),
      finding({ evidence: [evidence('reading', 400, 1), evidence('net output', 120, 1)] }),
      /output 100 mL, then 120/,
    ],
    [
      'with more pain',
      finding({ code: 'severe-pain', evidence: [evidence('pain', 9, 5)] }),
      finding({ code: 'severe-pain', evidence: [evidence('pain', 7, 1)] }),
      /pain 9/,
    ],
    [
      'with a surge that is larger',
      finding({ code: 'output-surge', evidence: [evidence('net output', 1400, 5)] }),
      finding({ code: 'output-surge', evidence: [evidence('net output', 1200, 1)] }),
      /output 1400/,
    ],
  ])('%s', (_name, now, before, why) => {
    expect(worseThan(now, before)).toMatch(why)
  })

  it.each([
    ['the same', finding(), finding()],
    [
      'at a lower urgency, whatever its numbers',
      { ...output(5, 10), urgency: 'within-24h' as const },
      output(1, 140),
    ],
    ['with the same output of fewer readings', output(5, 30, 30), output(1, 30, 30, 30)],
    ['with other numbers over the same evidence', output(1, 90), output(1, 140)],
    ['with nothing to compare', output(5, 90), finding()],
    [
      'of another kind of number',
      finding({ code: 'leak', evidence: [evidence('reading', 1, 5)] }),
      finding({ code: 'leak', evidence: [evidence('reading', 2, 1)] }),
    ],
  ])('not when it is %s', (_name, now, before) => {
    expect(worseThan(now, before)).toBeNull()
  })
})
