import { describe, expect, it } from 'vitest'
import { simpleWays } from '../../../lib/commands/evaluate/simple-ways.ts'
import { type PlannedEvent, simulatePatient } from '../../../lib/simulate/index.ts'

const patient = (events: PlannedEvent[] | 'none', kind: 'nephrostomy' | 'collection') =>
  simulatePatient(21, {
    start: '2026-03-02T17:00:00Z',
    days: 40,
    adherence: 1,
    kind,
    levelMlPerDay: 600,
    oneDrain: true,
    events,
  })
const ways = (events: PlannedEvent[] | 'none', kind: 'nephrostomy' | 'collection' = 'nephrostomy') =>
  Object.fromEntries(simpleWays(patient(events, kind), patient('none', kind)).map((way) => [way.way, way]))

describe('the simpler ways', () => {
  it('see a sudden stop of a steady drain', () => {
    const seen = ways([{ type: 'sudden-obstruction', onsetHour: 480, calledAfterHours: 60 }])
    expect(seen['half-of-yesterday']?.found[0]).toBeLessThan(48)
    expect(seen['fixed-limit']?.found[0]).toBeLessThan(60)
    expect(seen['own-call']?.found).toEqual([60])
    expect(seen['fixed-limit']?.byChance).toBe(0)
  })

  it('have nothing to find where nothing happens, and then every alert is false', () => {
    const seen = ways('none')
    for (const way of Object.values(seen)) expect(way).toMatchObject({ found: [], byChance: 0 })
    expect(seen['own-call']?.falseAlerts).toBe(0)
  })

  it('do not look at drains that should dwindle', () => {
    const seen = ways([{ type: 'sudden-obstruction', onsetHour: 100, calledAfterHours: 60 }], 'collection')
    for (const way of Object.values(seen)) expect(way).toMatchObject({ falseAlerts: 0, found: [] })
  })
})
