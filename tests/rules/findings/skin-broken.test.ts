import { describe, expect, it } from 'vitest'
import { dressing, event, finding, record, times, urgency } from '../../support/build.ts'

const broken = dressing(10, { skin: 'broken' })

describe('skin-broken', () => {
  it('may wait a day, and silence does not heal it', () => {
    expect(urgency('skin-broken', record({}, [broken]), 900)).toBe('within-24h')
    expect(times(finding('skin-broken', record({}, [broken]), 900))).toEqual({ since: 10, actBy: 34 })
  })
  it('is as the newest statement on the skin has it', () => {
    expect(urgency('skin-broken', record({}, [broken, dressing(12, { skin: 'intact' })]), 12)).toBe('none')
    expect(urgency('skin-broken', record({}, [broken, dressing(12, { skin: 'red' })]), 12)).toBe('none')
    expect(
      urgency('skin-broken', record({}, [broken, dressing(12, { found: 'clean', changed: true })]), 12),
    ).toBe('within-24h')
  })
  it('is not ended by a new tube, and is by removal', () => {
    expect(urgency('skin-broken', record({}, [broken], [event(11, 'exchanged')]), 12)).toBe('within-24h')
    expect(urgency('skin-broken', record({}, [broken], [event(11, 'removed')]), 12)).toBe('none')
  })
})
