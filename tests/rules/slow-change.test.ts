import { describe, expect, it } from 'vitest'
import { slowChanges } from '../../lib/rules/slow-change.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { at, closed, days, drain, event, record } from '../support/build.ts'

const many = (count: number, ml: number) => Array.from({ length: count }, () => ml)
const sunk = days([...many(5, 400), ...many(3, 240)])
const changes = (of: ReturnType<typeof record>) => slowChanges(of, standardRuleSet, at(24 * 9))

describe('the slow-change chart on a screen', () => {
  it('is in mL a day: centre 400, σ 100, averages −0.48, −0.816, −1.0512, limit −1.0502', () => {
    expect(changes(record({}, sunk))).toEqual([
      {
        drain: 'd1',
        chart: {
          centreMl: 400,
          limitMl: 295,
          days: [
            { date: '2026-03-07', averageMl: 352 },
            { date: '2026-03-08', averageMl: 318.4 },
            { date: '2026-03-09', averageMl: 294.9 },
          ],
        },
        why: null,
      },
    ])
  })
  it('is told apart from a chart that cannot be drawn, with the reason', () => {
    const why = (of: ReturnType<typeof record>) => changes(of)[0]?.why
    expect(why(record({}, days(many(4, 400))))).toBe(
      'Too few whole days: 4 of 8, or staff closed the fall lately.',
    )
    expect(why(record({}, sunk, [closed(24 * 8, 'output-decline')]))).toMatch(/closed the fall/)
    expect(why(record({ kind: 'collection' }, sunk))).toMatch(/should dwindle/)
    expect(why(record({}, sunk, [event(24 * 8, 'capped')]))).toBe('The drain is capped.')
  })
  it('has one entry for each drain, and looks at nothing that came later', () => {
    expect(changes(record([drain(), drain({ id: 'd2' })], sunk)).map((one) => one.chart !== null)).toEqual([
      true,
      false,
    ])
    expect(slowChanges(record({}, sunk), standardRuleSet, at(24 * 7.5))[0]?.chart).toBeNull()
  })
})
