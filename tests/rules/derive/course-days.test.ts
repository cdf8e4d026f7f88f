import { describe, expect, it } from 'vitest'
import { courseDays } from '../../../lib/rules/derive/course-days.ts'
import { at, days, drainView, event, reading, record } from '../../support/build.ts'

const told = (of: ReturnType<typeof record>, hours: number) =>
  courseDays(drainView(of, hours)).map(({ day, netMl }) => [day, Math.round(netMl)])

describe('the days by which a drain counts', () => {
  it('are its complete ones, counted from the day of placement', () => {
    const of = record({ placedAt: at(6) }, [reading(24, 90), ...days([200, 300], 1), reading(78, 40)], [], {
      enrolledAt: at(6),
    })
    // The day of placement has 18 of 24 hours, the last one 6.
    expect(told(of, 100)).toEqual([
      [1, 200],
      [2, 300],
    ])
  })
  it('go on over an exchange', () => {
    const of = record({}, days([100, 200, 300]), [event(24, 'exchanged')])
    expect(told(of, 100)).toEqual([
      [0, 100],
      [1, 200],
      [2, 300],
    ])
  })
  it('leave out what is too long to date, or cannot have been', () => {
    expect(told(record({}, [reading(72, 900), ...days([100], 3)]), 200)).toEqual([[3, 100]])
    const overfull = record({ bagCapacityMl: 600 }, days([100, 1300, 100]), [event(72, 'replaced')])
    expect(told(overfull, 200)).toEqual([
      [0, 100],
      [2, 100],
    ])
  })
  it('leave out those on which it was capped', () => {
    const of = record({}, days([100, 0, 0, 100]), [event(30, 'capped'), event(72, 'uncapped')])
    expect(told(of, 100)).toEqual([
      [0, 100],
      [3, 100],
    ])
    expect(told(record({ cappedAt: at(24) }, days([100, 0, 0])), 100)).toEqual([[0, 100]])
  })
})
