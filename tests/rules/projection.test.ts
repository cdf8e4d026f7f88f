import { describe, expect, it } from 'vitest'
import { projectRemoval } from '../../lib/rules/projection.ts'
import { type DrainOverrides, days, drainView, event, record } from '../support/build.ts'

const project = (
  volumes: number[],
  order: DrainOverrides = { kind: 'collection' },
  events: Parameters<typeof record>[2] = [],
) => projectRemoval(drainView(record(order, days(volumes), events), 24 * volumes.length))

describe('when little enough will come', () => {
  it('is the day on which the line meets the limit, and the days that must follow', () => {
    // Half of it each day from 300: 18.75 on day 4, 9.4 on day 5, and a second day: day 6 is 8 March.
    expect(project([300, 150, 75, 37.5, 18.75])).toMatchObject({ date: '2026-03-08' })
    // A bulb is looked at under 30 mL: 37.5 on day 6, 18.75 on day 7, a second day: day 8.
    expect(project([2400, 1200, 600, 300, 150], { kind: 'bulb' })?.date).toBe('2026-03-10')
  })
  it('has an interval that holds the date', () => {
    const told = project([310, 140, 80, 36, 19, 12])
    if (!told) throw new Error('a projection was expected')
    expect(told.earliest <= told.date).toBe(true)
    expect(told.latest === null || told.latest >= told.date).toBe(true)
  })
})

describe('the data carry none', () => {
  it.each([
    ['with fewer than five days', [300, 150, 75, 37]],
    ['with a day of nothing', [300, 150, 75, 0, 18]],
    ['without a fall', [50, 52, 49, 51, 50, 50]],
    ['with a rise', [20, 40, 80, 160, 320]],
    ['where the limit is met already', [40, 20, 10, 5, 2.5]],
    ['more than 60 days ahead', [1000, 990, 980, 970, 960, 950]],
  ])('%s', (_, volumes) => {
    expect(project(volumes)).toBeNull()
  })
  it('of a drain that has no such limit', () => {
    for (const order of [
      { kind: 'nephrostomy' },
      { kind: 'pleural' },
      { kind: 'collection', course: 'steady' },
    ] as const)
      expect(project([300, 150, 75, 37.5, 18.75], order)).toBeNull()
  })
  it('while it is capped, or the tube is new', () => {
    expect(project([300, 150, 75, 37.5, 18.75], { kind: 'collection' }, [event(119, 'capped')])).toBeNull()
    expect(project([300, 150, 75, 37.5, 18.75], { kind: 'collection' }, [event(60, 'exchanged')])).toBeNull()
  })
})
