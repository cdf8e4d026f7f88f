import { describe, expect, it } from 'vitest'
import { spreadOverDays, within } from '../../../lib/rules/series/spread.ts'
import type { Stretch } from '../../../lib/rules/series/stretches.ts'
import { frozen } from '../../support/build.ts'

const HOUR = 3_600_000
function stretch(start: string, end: string, netMl: number | null): Stretch {
  const [from, to] = [Date.parse(start), Date.parse(end)]
  const hours = (to - from) / HOUR
  return frozen({
    start: from,
    end: to,
    hours,
    volumeMl: netMl,
    flushedMl: 0,
    netMl,
    missingFlushMl: 0,
    coarse: hours > 48,
    overfull: false,
    readings: [],
  })
}
const spread = (zone: string, ...stretches: Stretch[]) =>
  spreadOverDays(zone, stretches).map((day) => [
    day.date,
    Number(day.netMl.toFixed(6)),
    Number(day.coverage.toFixed(6)),
    day.hours,
  ])

describe('spreadOverDays', () => {
  it('spreads evenly over real time', () => {
    // 18:00 to 06:00: 6 of 12 h on each side of midnight, a quarter of each day.
    expect(spread('Etc/UTC', stretch('2026-03-02T18:00:00Z', '2026-03-03T06:00:00Z', 120))).toEqual([
      ['2026-03-02', 60, 0.25, 24],
      ['2026-03-03', 60, 0.25, 24],
    ])
  })
  it('over a night of one hour less: 10 mL an hour stay 10 mL an hour', () => {
    // Denver, 7 March 18:00 −07:00 to 9 March 00:00 −06:00: 29 real hours, 6 on the 7th, 23 on the 8th.
    expect(spread('America/Denver', stretch('2026-03-08T01:00:00Z', '2026-03-09T06:00:00Z', 290))).toEqual([
      ['2026-03-07', 60, 0.25, 24],
      ['2026-03-08', 230, 1, 23],
    ])
  })
  it('over a night of one hour more', () => {
    expect(spread('America/Denver', stretch('2026-11-01T06:00:00Z', '2026-11-02T07:00:00Z', 250))).toEqual([
      ['2026-11-01', 250, 1, 25],
    ])
  })
  it('over half an hour more, on Lord Howe Island', () => {
    // Local midnights: 4 April 13:00 UTC and 5 April 13:30 UTC.
    expect(
      spread('Australia/Lord_Howe', stretch('2026-04-04T12:00:00Z', '2026-04-05T13:30:00Z', 255)),
    ).toEqual([
      ['2026-04-04', 10, 0.041667, 24],
      ['2026-04-05', 245, 1, 24.5],
    ])
  })
  it('over a date that a zone left out: nothing falls on it', () => {
    expect(spread('Pacific/Apia', stretch('2011-12-29T10:00:00Z', '2011-12-31T10:00:00Z', 480))).toEqual([
      ['2011-12-29', 240, 1, 24],
      ['2011-12-31', 240, 1, 24],
    ])
  })
  it('leaves what was not measured, and what lies between, uncovered', () => {
    const days = spread(
      'Etc/UTC',
      stretch('2026-03-02T00:00:00Z', '2026-03-03T00:00:00Z', 100),
      stretch('2026-03-03T00:00:00Z', '2026-03-04T00:00:00Z', null),
      stretch('2026-03-04T12:00:00Z', '2026-03-05T00:00:00Z', -20),
    )
    expect(days).toEqual([
      ['2026-03-02', 100, 1, 24],
      ['2026-03-03', 0, 0, 24],
      ['2026-03-04', -20, 0.5, 24],
    ])
  })
  it('is empty without a measured stretch', () => {
    expect(spreadOverDays('Etc/UTC', [])).toEqual([])
    expect(spread('Etc/UTC', stretch('2026-03-02T00:00:00Z', '2026-03-03T00:00:00Z', null))).toEqual([])
  })
  it('names the stretches that a day is made of, and ends with the last covered instant', () => {
    const list = [
      stretch('2026-03-02T00:00:00Z', '2026-03-02T12:00:00Z', 1),
      stretch('2026-03-02T12:00:00Z', '2026-03-03T00:00:00Z', 2),
    ]
    const days = spreadOverDays('Etc/UTC', list)
    expect(days).toHaveLength(1)
    expect(days[0]?.from).toEqual([0, 1])
  })
})

describe('within', () => {
  const list = [
    stretch('2026-03-02T00:00:00Z', '2026-03-04T12:00:00Z', 600), // 60 h, 10 mL/h
    stretch('2026-03-04T12:00:00Z', '2026-03-05T00:00:00Z', null),
    stretch('2026-03-05T00:00:00Z', '2026-03-05T06:00:00Z', 30),
  ]
  const [noon, six] = [Date.parse('2026-03-04T06:00:00Z'), Date.parse('2026-03-05T06:00:00Z')]
  it('takes the parts that fall in the window, and how much of it they cover', () => {
    // 6 h of the long stretch are 60 mL, 12 h are unknown, 6 h are 30 mL: 12 of 24 h are covered.
    expect(within(list, noon, six)).toMatchObject({ netMl: 90, coverage: 0.5, coarse: true })
    expect(within(list, noon, six).used).toEqual([list[0], list[2]])
  })
  it('says nothing of a long stretch that ends where the window starts', () => {
    expect(within(list, Date.parse('2026-03-04T12:00:00Z'), six)).toMatchObject({ netMl: 30, coarse: false })
  })
  it('looks no further than the stretch that is named as the last', () => {
    expect(within(list, noon, six, 0)).toMatchObject({ netMl: 60, coverage: 0.25 })
  })
})
