import { describe, expect, it } from 'vitest'
import { event, finding, flush, record, times, urgency } from '../../support/build.ts'

const blocked = flush(10, 10, { ease: 'blocked', received: 11 })

describe('flush-blocked', () => {
  it('may wait a day, from its receipt', () => {
    expect(urgency('flush-blocked', record({}, [blocked]), 500)).toBe('within-24h')
    expect(times(finding('flush-blocked', record({}, [blocked]), 500))).toEqual({ since: 11, actBy: 35 })
  })
  it.each(['easy', 'stiff'] as const)(
    'is not raised by a flush that is %s, and ends with a newer one',
    (ease) => {
      expect(urgency('flush-blocked', record({}, [flush(10, 10, { ease })]), 11)).toBe('none')
      expect(urgency('flush-blocked', record({}, [blocked, flush(12, 10, { ease })]), 12)).toBe('none')
    },
  )
  it('stands while newer flushes do not say how they went', () => {
    expect(urgency('flush-blocked', record({}, [blocked, flush(12, 10)]), 13)).toBe('within-24h')
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped', 'removed'] as const)(
    'ends with the tube %s',
    (type) => {
      expect(urgency('flush-blocked', record({}, [blocked], [event(12, type)]), 12)).toBe('none')
    },
  )
  it('stands with a capped drain', () => {
    expect(urgency('flush-blocked', record({}, [blocked], [event(12, 'capped')]), 12)).toBe('within-24h')
  })
})
