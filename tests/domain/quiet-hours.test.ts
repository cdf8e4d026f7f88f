import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { freeWithin, isQuiet, lastFree, nextFree, usualQuietHours } from '../../lib/domain/quiet-hours.ts'

const zone = 'America/Denver'
const at = (local: string) => Date.parse(local)
const quiet = usualQuietHours

describe('quiet hours', () => {
  it('begin at their first minute and end at their last, by the clock on the wall', () => {
    expect(isQuiet(at('2026-03-02T21:00:00-07:00'), quiet, zone)).toBe(true)
    expect(isQuiet(at('2026-03-02T20:59:59-07:00'), quiet, zone)).toBe(false)
    expect(isQuiet(at('2026-03-03T07:59:00-07:00'), quiet, zone)).toBe(true)
    expect(isQuiet(at('2026-03-03T08:00:00-07:00'), quiet, zone)).toBe(false)
  })
  it('within one day', () => {
    const noon = { from: '12:00', until: '14:00' }
    expect(isQuiet(at('2026-03-02T13:00:00-07:00'), noon, zone)).toBe(true)
    expect(isQuiet(at('2026-03-02T14:00:00-07:00'), noon, zone)).toBe(false)
  })
  it('from and until alike mean never', () => {
    expect(isQuiet(at('2026-03-02T03:00:00-07:00'), { from: '08:00', until: '08:00' }, zone)).toBe(false)
  })
  it('end by the new clock on the night on which it is changed', () => {
    // 2026-03-08 in Denver: 02:00 becomes 03:00.
    expect(nextFree(at('2026-03-08T01:30:00-07:00'), quiet, zone)).toBe(at('2026-03-08T08:00:00-06:00'))
    expect(lastFree(at('2026-03-08T04:30:00-06:00'), quiet, zone)).toBe(at('2026-03-07T20:59:00-07:00'))
  })
  it('leave a stretch that they fill at its beginning or its end', () => {
    const stretch = [at('2026-03-02T20:30:00-07:00'), at('2026-03-03T07:00:00-07:00')] as const
    expect(freeWithin(stretch, at('2026-03-03T01:00:00-07:00'), quiet, zone)).toBe(
      at('2026-03-02T20:59:00-07:00'),
    )
    const ends = [at('2026-03-02T22:00:00-07:00'), at('2026-03-03T08:00:00-07:00')] as const
    expect(freeWithin(ends, at('2026-03-03T01:00:00-07:00'), quiet, zone)).toBe(ends[1])
    const none = [at('2026-03-02T22:00:00-07:00'), at('2026-03-03T07:00:00-07:00')] as const
    expect(freeWithin(none, at('2026-03-03T01:00:00-07:00'), quiet, zone)).toBeNull()
  })

  const clock = fc
    .tuple(fc.nat(23), fc.nat(59))
    .map((pair) => pair.map((n) => String(n).padStart(2, '0')).join(':'))
  const somewhere = fc.record({
    zone: fc.constantFrom('America/Denver', 'Pacific/Chatham', 'Asia/Kolkata', 'Australia/Lord_Howe', 'UTC'),
    ms: fc.integer({ min: at('2026-01-01T00:00:00Z'), max: at('2027-01-01T00:00:00Z') }),
    quiet: fc.record({ from: clock, until: clock }),
  })
  it('what is found around them is free, whatever the zone and the clock change', () => {
    fc.assert(
      fc.property(somewhere, ({ zone, ms, quiet }) => {
        const [next, last] = [nextFree(ms, quiet, zone), lastFree(ms, quiet, zone)]
        expect(isQuiet(next, quiet, zone)).toBe(false)
        expect(next).toBeGreaterThanOrEqual(ms)
        expect(isQuiet(last, quiet, zone)).toBe(false)
        expect(last).toBeLessThanOrEqual(ms)
      }),
      { numRuns: 2000 },
    )
  })
})
