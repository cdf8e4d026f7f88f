import { describe, expect, it } from 'vitest'
import { closed, event, finding, record, state, times, urgency } from '../../support/build.ts'

const moved = state(10, { position: 'moved' })

describe('drain-moved', () => {
  it('is within the hour from its receipt', () => {
    const of = record({}, [state(10, { position: 'moved' }, { received: 12 })])
    expect(urgency('drain-moved', of, 13)).toBe('within-1h')
    expect(times(finding('drain-moved', of, 13))).toEqual({ since: 12, actBy: 13 })
  })
  it('is not raised by a drain in place, or out', () => {
    expect(urgency('drain-moved', record({}, [state(10, { position: 'in-place' })]), 11)).toBe('none')
    expect(urgency('drain-moved', record({}, [state(10, { position: 'out' })]), 11)).toBe('none')
  })
  it.each(['position-checked', 'removed', 'replaced', 'exchanged', 'placed'] as const)(
    'ends once %s',
    (type) => {
      const of = record({}, [moved], [event(14, type)])
      expect([urgency('drain-moved', of, 13.9), urgency('drain-moved', of, 14)]).toEqual([
        'within-1h',
        'none',
      ])
    },
  )
  it('stands again when it moves after the check', () => {
    expect(
      urgency(
        'drain-moved',
        record({}, [moved, state(15, { position: 'moved' })], [event(14, 'position-checked')]),
        16,
      ),
    ).toBe('within-1h')
  })
  it('is not ended by the check of another drain, a later report, a correction or an uncapping', () => {
    const wrong = state(10, { position: 'moved' }, { id: 'x' })
    expect(urgency('drain-moved', record({}, [moved], [event(14, 'position-checked', 'd2')]), 15)).toBe(
      'within-1h',
    )
    expect(urgency('drain-moved', record({}, [moved, state(14, { position: 'in-place' })]), 15)).toBe(
      'within-1h',
    )
    expect(
      urgency(
        'drain-moved',
        record({}, [wrong, state(10, { position: 'in-place' }, { supersedes: 'x', received: 14 })]),
        15,
      ),
    ).toBe('within-1h')
    expect(urgency('drain-moved', record({}, [moved], [event(14, 'uncapped')]), 15)).toBe('within-1h')
  })
  it('ends when it is closed, for what had been received by then', () => {
    expect(urgency('drain-moved', record({}, [moved], [closed(14, 'drain-moved')]), 15)).toBe('none')
    expect(urgency('drain-moved', record({}, [moved], [closed(9, 'drain-moved')]), 15)).toBe('within-1h')
    expect(urgency('drain-moved', record({}, [moved], [closed(14, 'drain-out')]), 15)).toBe('within-1h')
  })
})
