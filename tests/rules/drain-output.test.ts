import { describe, expect, it } from 'vitest'
import { drainOutput } from '../../lib/rules/drain-output.ts'
import { at, days, drainView, event, flush, reading, record, START } from '../support/build.ts'

const output = (of: ReturnType<typeof record>, hours: number) =>
  drainOutput(drainView(of, hours), START + hours * 3_600_000)
const told = (of: ReturnType<typeof record>, hours: number) =>
  output(of, hours).days.map((day) => [day.date, day.netMl, day.coverage])

describe('the days of a drain', () => {
  it('are none before the first covered one', () => {
    expect(told(record({}), 100)).toEqual([])
    expect(told(record({}, [reading(8, null)]), 100)).toEqual([])
  })
  it('run to the day of the instant; what is unknown is null, and what is nothing is 0', () => {
    const of = record({}, [reading(24, 0), reading(48, null), reading(60, 90)])
    expect(told(of, 120)).toEqual([
      ['2026-03-02', 0, 1],
      ['2026-03-03', null, 0],
      ['2026-03-04', 90, 0.5],
      ['2026-03-05', null, 0],
      ['2026-03-06', null, 0],
      ['2026-03-07', null, 0],
    ])
  })
  it('hold the day of the instant from its first moment on', () => {
    expect(told(record({}, days([100])), 23.9)).toEqual([])
    expect(told(record({}, days([100])), 24)).toEqual([
      ['2026-03-02', 100, 1],
      ['2026-03-03', null, 0],
    ])
  })
  it('are of every tube that the drain had', () => {
    const of = record({}, [reading(12, 120), reading(36, 60)], [event(12, 'removed'), event(30, 'replaced')])
    expect(told(of, 36)).toEqual([
      ['2026-03-02', 120, 0.5],
      ['2026-03-03', 60, 0.25],
    ])
  })
  it('add up to what was emptied less what was flushed', () => {
    const of = record({}, [
      flush(3, 7),
      reading(7, 33.3),
      reading(31, 100),
      flush(40, 12),
      reading(77.7, 250),
    ])
    const sum = output(of, 100).days.reduce((total, day) => total + (day.netMl ?? 0), 0)
    expect(sum).toBeCloseTo(33.3 - 7 + 100 + 250 - 12, 6)
  })
  it('have 25 hours, and all of them, when the clock goes back', () => {
    const of = record(
      { placedAt: '2026-11-01T06:00:00Z' },
      [
        {
          id: 'r',
          receivedAt: '2026-11-02T07:00:00Z',
          readings: [{ drain: 'd1', at: '2026-11-02T07:00:00Z', volumeMl: 250 }],
        },
      ],
      [],
      { timeZone: 'America/Denver', enrolledAt: '2026-11-01T06:00:00Z' },
    )
    const noon = Date.parse('2026-11-02T19:00:00Z')
    expect(drainOutput(drainView(of, (noon - START) / 3_600_000), noon).days).toEqual([
      { date: '2026-11-01', netMl: 250, coverage: 1, hours: 25 },
      { date: '2026-11-02', netMl: null, coverage: 0, hours: 24 },
    ])
  })
})

describe('a day that rests on a full bag', () => {
  const marks = (bagCapacityMl: number | null, volumeMl: number, total = false) =>
    output(record({ bagCapacityMl }, [reading(24, 100), reading(60, volumeMl, { total })]), 72).days.map(
      (day) => day.atLeast,
    )
  it('is at least what was read, on each day of the stretch; others say nothing', () => {
    expect(marks(600, 600)).toEqual([undefined, true, true, undefined])
    expect(marks(600, 1300)).toEqual([undefined, true, true, undefined])
  })
  it('is not where less than the bag came, where it is a total, or where the bag is not known', () => {
    for (const told of [marks(600, 599), marks(600, 900, true), marks(null, 900)])
      expect(told).toEqual([undefined, undefined, undefined, undefined])
  })
})

describe('the baseline', () => {
  it('is told with what it rests on', () => {
    expect(output(record({}, days([300, 400, 410, 50])), 100)).toMatchObject({
      drain: 'd1',
      baselineMlPerDay: 400,
      baselineFrom: 'days',
      baselineDays: 3,
    })
    expect(output(record({ usualMlPerDay: 350 }, days([300])), 30)).toMatchObject({
      baselineMlPerDay: 350,
      baselineFrom: 'ward',
    })
    expect(output(record({}, days([300, 400])), 50)).toMatchObject({
      baselineMlPerDay: null,
      baselineFrom: 'unknown',
      cannotTell: ['Baseline not known yet: 1 of 3 days.'],
    })
  })
})

describe('what cannot be told', () => {
  it('with a vessel whose marks are coarser than the limit', () => {
    const of = (markMl: number | null) =>
      output(record({ kind: 'bulb', usualMlPerDay: 60, markMl }, days([20, 20])), 50).cannotTell
    expect(of(50)).toEqual([
      'Whether less than 30 mL comes cannot be told with this vessel: its smallest mark is 50 mL.',
    ])
    expect([of(30), of(null)]).toEqual([[], []])
  })
  it('is nothing of a steady drain, whatever its marks', () => {
    expect(output(record({ usualMlPerDay: 400, markMl: 50 }), 50).cannotTell).toEqual([])
  })
})

describe('a drain that has been removed', () => {
  it('keeps its days', () => {
    expect(told(record({ removedAt: at(30) }, days([100])), 48)).toHaveLength(3)
  })
})
