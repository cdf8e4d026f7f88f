import { describe, expect, it } from 'vitest'
import { placeInTime } from '../../lib/simulate/place-in-time.ts'

describe('placeInTime', () => {
  it('knows the local hour, in summer and in winter', () => {
    const time = placeInTime('2026-03-02T17:00:00Z', 'America/Denver')
    expect(time.localHour(0)).toBeCloseTo(10)
    expect(time.localHour(30 * 24)).toBeCloseTo(11)
    expect(placeInTime('2026-03-02T17:00:00Z', 'Asia/Kathmandu').localHour(0)).toBeCloseTo(22.75)
    expect(placeInTime('2026-03-02T17:00:00Z', 'UTC').localHour(0)).toBeCloseTo(17)
  })

  it('meets a habit once a day, over the change of the clock', () => {
    const time = placeInTime('2026-03-02T17:00:00Z', 'America/Denver')
    const mornings = time.daily(8, 0, 24 * 60)
    expect(mornings).toHaveLength(60)
    for (const hour of mornings.slice(10)) expect(time.localHour(hour)).toBeCloseTo(8)
  })

  it('turns hours into instants of the minute and back', () => {
    const time = placeInTime('2026-03-02T17:00:00Z', 'America/Denver')
    expect(time.iso(1.504)).toBe('2026-03-02T18:30:00.000Z')
    expect(time.hourOf('2026-03-02T11:30:00-07:00')).toBeCloseTo(1.5)
  })
})
