import { describe, expect, it } from 'vitest'
import { finding, record, symptoms, times, urgency } from '../../support/build.ts'

const unwell = (of: ReturnType<typeof record>, hours: number) => urgency('unwell', of, hours, null)

describe('unwell', () => {
  it.each(['vomiting', 'dizzy'] as const)('%s may wait a day', (symptom) => {
    const of = record({}, [symptoms(10, { general: [symptom] }, { received: 11 })])
    expect(unwell(of, 12)).toBe('within-24h')
    expect(times(finding('unwell', of, 12, null))).toEqual({ since: 11, actBy: 35 })
  })
  it('is not raised by an emergency symptom, by none, or by what is usual', () => {
    expect(unwell(record({}, [symptoms(10, { general: ['fainted'] })]), 11)).toBe('none')
    expect(unwell(record({}, [symptoms(10, { general: [] })]), 11)).toBe('none')
    expect(
      unwell(record({}, [symptoms(10, { general: ['dizzy'] })], [], { usual: { general: ['dizzy'] } }), 11),
    ).toBe('none')
  })
  it('ends 24 h after it was last stated, once a newer statement is free of it', () => {
    const of = record({}, [symptoms(10, { general: ['vomiting'] }), symptoms(30, { general: [] })])
    expect([unwell(of, 29), unwell(of, 33.9), unwell(of, 34)]).toEqual(['within-24h', 'within-24h', 'none'])
  })
})
