import { expect, it } from 'vitest'
import { lastWeeks, mondayOf, offsetsOf, weeksOf } from '../../../lib/audit/figures/weeks.ts'

const DENVER = 'America/Denver'

it('knows the Monday of any day', () => {
  expect(['2026-11-23', '2026-11-29', '2026-11-30', '2026-03-01'].map(mondayOf)).toEqual([
    '2026-11-23',
    '2026-11-23',
    '2026-11-30',
    '2026-02-23',
  ])
})

it('cuts a period into weeks of the clinic’s own days, an hour short where the clocks go forward', () => {
  const weeks = weeksOf({ from: '2026-03-04', until: '2026-03-17' }, DENVER)
  expect(
    weeks.map(({ monday, from, until, noons }) => [
      monday,
      new Date(from).toISOString(),
      (until - from) / 3_600_000,
      noons.length,
    ]),
  ).toEqual([
    ['2026-03-02', '2026-03-04T07:00:00.000Z', 5 * 24 - 1, 5],
    ['2026-03-09', '2026-03-09T06:00:00.000Z', 7 * 24, 7],
    ['2026-03-16', '2026-03-16T06:00:00.000Z', 24, 1],
  ])
})

it('shows whole weeks that are over, by the clinic’s calendar', () => {
  // Sunday evening in Denver is Monday in UTC.
  expect(lastWeeks(new Date('2026-11-30T05:00:00Z'), DENVER, 2)).toEqual({
    from: '2026-11-09',
    until: '2026-11-23',
  })
  expect(lastWeeks(new Date('2026-11-30T08:00:00Z'), DENVER, 2)).toEqual({
    from: '2026-11-16',
    until: '2026-11-30',
  })
})

it('finds the second at which the clocks change', () => {
  const from = Date.parse('2026-03-02T07:00:00Z')
  expect(offsetsOf(from, Date.parse('2026-03-30T06:00:00Z'), DENVER)).toEqual([
    { until: '2026-03-08T09:00:00.000Z', seconds: -7 * 3600 },
    { until: '2026-03-30T06:00:00.000Z', seconds: -6 * 3600 },
  ])
  expect(offsetsOf(from, from + 86_400_000, DENVER)).toHaveLength(1)
})
