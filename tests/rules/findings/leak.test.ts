import { describe, expect, it } from 'vitest'
import { event, finding, record, state, times, urgency } from '../../support/build.ts'

const wet = state(10, { leak: true }, { received: 11 })

describe('leak', () => {
  it('is within the hour from its receipt, and silence does not dry it', () => {
    expect(times(finding('leak', record({}, [wet]), 12))).toEqual({ since: 11, actBy: 12 })
    expect(urgency('leak', record({}, [wet]), 900)).toBe('within-1h')
  })
  it('is as the newest statement has it', () => {
    expect(urgency('leak', record({}, [wet, state(12, { leak: false })]), 12)).toBe('none')
    expect(urgency('leak', record({}, [wet, state(12, { leak: null, position: 'in-place' })]), 13)).toBe(
      'within-1h',
    )
    // An older statement that arrives later changes nothing.
    expect(urgency('leak', record({}, [wet, state(9, { leak: false }, { received: 14 })]), 15)).toBe(
      'within-1h',
    )
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped', 'removed'] as const)(
    'ends with the tube %s',
    (type) => {
      expect(urgency('leak', record({}, [wet], [event(12, type)]), 12)).toBe('none')
    },
  )
  it('stands with a capped drain, and is not ended by a position check', () => {
    expect(urgency('leak', record({}, [wet], [event(12, 'capped')]), 13)).toBe('within-1h')
    expect(urgency('leak', record({}, [wet], [event(12, 'position-checked')]), 13)).toBe('within-1h')
  })
  it('of the new tube is a new one, also where it is told before the old', () => {
    expect(urgency('leak', record({}, [state(13, { leak: true })], [event(12, 'exchanged')]), 13)).toBe(
      'within-1h',
    )
  })
})
