import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import { notDraining, stoppedChain } from '../../../lib/rules/findings/output-stopped.ts'
import {
  closed,
  type DrainOverrides,
  days,
  drainView,
  event,
  finding,
  flush,
  reading,
  record,
  rulesWith,
  state,
  times,
  urgency,
} from '../../support/build.ts'

const stopped = (told: Report[], hours: number, order: DrainOverrides = {}) =>
  urgency('output-stopped', record(order, told), hours)

describe('a steady drain: measured', () => {
  it.each([
    ['10 mL in 8 h', [reading(8, 10)], 8, 'within-1h'],
    ['11 mL in 8 h', [reading(8, 11)], 8, 'none'],
    ['nothing in less than 8 h', [reading(7.9, 0)], 8, 'none'],
    ['30 mL in 24 h, pro rata', [reading(24, 30)], 24, 'within-1h'],
    ['31 mL in 24 h', [reading(24, 31)], 24, 'none'],
    ['nothing in 4 h, then 9 mL in 4 h', [reading(24, 400), reading(28, 0), reading(32, 9)], 32, 'within-1h'],
    ['nothing in 4 h, then 11 mL in 4 h', [reading(24, 400), reading(28, 0), reading(32, 11)], 32, 'none'],
    [
      'a chain of 10 h, 12.5 mL allowed',
      [reading(24, 400), reading(30, 8), reading(34, 4.5)],
      34,
      'within-1h',
    ],
    ['a chain of 10 h, 12.6 mL', [reading(24, 400), reading(30, 8), reading(34, 4.6)], 34, 'none'],
    ['nothing in a day, then 10 mL in 4 h', [reading(24, 0), reading(28, 10)], 28, 'within-1h'],
    ['nothing in a day, then 11 mL in 4 h: it came back', [reading(24, 0), reading(28, 11)], 28, 'none'],
    ['nothing in 60 h: a stop holds over a long stretch', [reading(60, 0)], 60, 'within-1h'],
    ['less than nothing', [flush(1, 20), reading(9, 0)], 9, 'within-1h'],
    ['could not measure', [reading(24, null)], 24, 'none'],
    ['a part that could not be measured', [reading(24, 400), reading(28, null), reading(32, 0)], 32, 'none'],
    ['no reading at all', [], 500, 'none'],
  ] as const)('%s', (_, told, hours, expected) => {
    expect(stopped([...told], hours)).toBe(expected)
  })

  it('is no stop where something came that is half of the baseline’s share of those hours', () => {
    // A usual 20 mL a day: 8 h have 6.67, half of that is 3.33.
    const usual = days([20, 20, 20, 20])
    expect(stopped([...usual, reading(104, 3.4)], 104)).toBe('none')
    expect(stopped([...usual, reading(104, 3.3)], 104)).toBe('within-1h')
    expect(stopped([...usual, reading(104, 0)], 104)).toBe('within-1h')
  })

  it('tells its numbers', () => {
    const found = finding(
      'output-stopped',
      record({}, [...days([400]), reading(28, 2, { id: 'a' }), reading(33, 3, { id: 'b' })]),
      33,
    )
    expect(found?.says).toContain('Net output 5 mL in the 9 h to')
    expect(found?.says).toContain('limit 11 mL') // 10 × 9 / 8 = 11.25
    expect(found?.evidence.map((e) => [e.report, e.value])).toEqual([
      [null, 5],
      ['a', 2],
      ['b', 3],
    ])
    expect(found?.threshold).toMatchObject({ name: 'stoppedMlPer8h', value: 10 })
  })

  it('stands since receipt and until more comes', () => {
    const of = record({}, [reading(8, 0, { received: 9 }), reading(16, 5), reading(24, 80)])
    expect(times(finding('output-stopped', of, 17))).toEqual({ since: 9, actBy: 10 })
    expect(urgency('output-stopped', of, 24)).toBe('none')
  })

  it('is ended by a new tube or an uncapping, not by closing the flag', () => {
    const told = [reading(8, 0)]
    for (const type of ['exchanged', 'replaced', 'placed', 'uncapped', 'removed', 'capped'] as const)
      expect(urgency('output-stopped', record({}, told, [event(9, type)]), 10), type).toBe('none')
    expect(urgency('output-stopped', record({}, told, [closed(9, 'output-stopped')]), 10)).toBe('within-1h')
  })
})

describe('how long a drain may give nothing', () => {
  it('is set by its own hours, at the same rate', () => {
    const order = (stoppedHours: number) => ({ plan: { overrides: { stoppedHours } } })
    // 4 h at 10 mL per 8 h are 5 mL; 12 h are 15.
    expect(stopped([reading(4, 5)], 4, order(4))).toBe('within-1h')
    expect(stopped([reading(4, 6)], 4, order(4))).toBe('none')
    expect(stopped([reading(3.9, 0)], 4, order(4))).toBe('none')
    expect(stopped([reading(8, 0)], 8, order(12))).toBe('none')
    expect(stopped([reading(12, 15)], 12, order(12))).toBe('within-1h')
  })
})

describe('an ordered flush that was not recorded', () => {
  const order = { plan: { flush: { volumeMl: 10, everyHours: 24 } } }
  it('is taken for given where that is more worrying', () => {
    // 40 mL in 24 h less the 10 mL that were due are 30: the limit of 24 h.
    expect(stopped([reading(24, 40)], 24, order)).toBe('within-1h')
    expect(stopped([reading(24, 41)], 24, order)).toBe('none')
    expect(stopped([reading(24, 40)], 24)).toBe('none')
  })
  it('is not due yet in less than its interval', () => {
    expect(stopped([reading(23.9, 40)], 24, order)).toBe('none')
  })
  it('is not taken away twice once it is recorded', () => {
    expect(stopped([flush(12, 10), reading(24, 41)], 24, order)).toBe('none')
    expect(stopped([flush(12, 10), reading(24, 40)], 24, order)).toBe('within-1h')
  })
})

describe('how soon', () => {
  it.each([
    [{ onlyKidney: true }, 'at-once'],
    [{ drainage: 'internal-external' }, 'within-24h'],
    [{ drainage: 'internal-external', onlyKidney: true }, 'at-once'],
    [{ kind: 'cholecystostomy' }, 'within-1h'],
    [{ kind: 'bulb', course: 'steady' }, 'within-1h'],
  ] as const)('%o: %s', (order, expected) => {
    expect(stopped([reading(8, 0)], 8, order)).toBe(expected)
  })
})

describe('a steady drain: reported as not draining', () => {
  const said = state(30, { draining: false })
  it('is believed at once', () => {
    const found = finding('output-stopped', record({}, [reading(24, 400), said]), 31)
    expect(found?.urgency).toBe('within-1h')
    expect(found?.says).toContain('Reported as not draining')
    expect(times(found)).toEqual({ since: 30, actBy: 31 })
  })
  it('ends with a stretch that begins after it and nets more than 10 mL', () => {
    // 24 to 36 began before; 36 to 40 began after: 11 mL end it, 10 do not.
    expect(stopped([reading(24, 400), said, reading(36, 100)], 36)).toBe('within-1h')
    expect(stopped([reading(24, 400), said, reading(36, 100), reading(40, 10)], 40)).toBe('within-1h')
    expect(stopped([reading(24, 400), said, reading(36, 100), reading(40, 11)], 40)).toBe('none')
  })
  it('ends with a stretch that begins in its very instant', () => {
    expect(stopped([reading(24, 400), reading(30, 90), said, reading(36, 11)], 36)).toBe('none')
  })
  it('ends with any later stretch over 10 mL once symptoms say that it drains', () => {
    const told = [reading(24, 400), said, reading(36, 100)]
    expect(stopped([...told, state(37, { draining: true })], 37)).toBe('none')
    expect(stopped([reading(24, 400), said, state(37, { draining: true })], 37)).toBe('within-1h')
    expect(stopped([reading(24, 400), said, state(37, { draining: true }), reading(38, 10)], 38)).toBe(
      'within-1h',
    )
  })
  it('is not ended by a flush that came back out', () => {
    expect(stopped([reading(24, 400), reading(30, 90), said, flush(31, 10), reading(37, 20)], 37)).toBe(
      'within-1h',
    )
  })
  it('is ended by closing the flag, for what had been received by then', () => {
    const late = state(30, { draining: false }, { received: 33 })
    const close = [closed(32, 'output-stopped')]
    expect(urgency('output-stopped', record({}, [reading(24, 400), said], close), 32)).toBe('none')
    expect(urgency('output-stopped', record({}, [reading(24, 400), late], close), 34)).toBe('within-1h')
  })
  it('is ended by a correction, by a new tube and by an uncapping', () => {
    const wrong = state(30, { draining: false }, { id: 'x' })
    expect(stopped([wrong, state(30, { draining: true }, { supersedes: 'x', received: 31 })], 31)).toBe(
      'none',
    )
    expect(urgency('output-stopped', record({}, [said], [event(31, 'exchanged')]), 32)).toBe('none')
    expect(
      urgency('output-stopped', record({}, [said], [event(29, 'capped'), event(31, 'uncapped')]), 32),
    ).toBe('none')
  })
  it('means nothing of a capped drain, or of one that should dwindle', () => {
    expect(urgency('output-stopped', record({}, [said], [event(20, 'capped')]), 31)).toBe('none')
    expect(stopped([said], 31, { kind: 'collection' })).toBe('none')
  })
})

describe('a drain that should dwindle: stopped at once', () => {
  const order = { kind: 'collection' } as const
  it.each([
    ['10 mL after 60 a day', [60, 60, 60, 10], 'within-24h'],
    ['11 mL', [60, 60, 60, 11], 'none'],
    ['after a baseline of 50', [50, 50, 50, 0], 'within-24h'],
    ['after a baseline of 49', [49, 49, 49, 0], 'none'],
    ['after a day of half of it', [100, 100, 100, 50, 5], 'within-24h'],
    ['after a day of less: it dwindled', [100, 100, 100, 49, 5], 'none'],
    ['without a baseline', [60, 60, 5], 'none'],
  ])('%s', (_, volumes, expected) => {
    expect(stopped(days(volumes), 24 * volumes.length, order)).toBe(expected)
  })

  it('stands until 24 h exceed 10 mL', () => {
    // On day 4 the day before is the stop itself, and it still stands.
    expect(times(finding('output-stopped', record(order, days([60, 60, 60, 5, 5])), 120))).toEqual({
      since: 96,
      actBy: 120,
    })
    expect(stopped(days([60, 60, 60, 5, 10]), 120, order)).toBe('within-24h')
    expect(stopped(days([60, 60, 60, 5, 11]), 120, order)).toBe('none')
    expect(stopped(days([60, 60, 60, 5, null]), 120, order)).toBe('within-24h') // not measured is not more
  })
  it('ends with a new tube, or once it is closed, and does not come back by itself', () => {
    const told = days([60, 60, 60, 5, 5])
    expect(urgency('output-stopped', record(order, told, [event(97, 'exchanged')]), 121)).toBe('none')
    expect(urgency('output-stopped', record(order, told, [closed(97, 'output-stopped')]), 97)).toBe('none')
    expect(urgency('output-stopped', record(order, told, [closed(97, 'output-stopped')]), 121)).toBe('none')
  })
  it('is not told over a stretch of more than 48 h, nor over hours that are not known', () => {
    expect(stopped([...days([60, 60, 60]), reading(72 + 49, 5)], 121, order)).toBe('none')
    expect(stopped([...days([60, 60, 60]), reading(75, null), reading(96, 5)], 96, order)).toBe('none')
  })
  it('is not made worse by a flush that was not recorded', () => {
    const flushed = { ...order, plan: { flush: { volumeMl: 10, everyHours: 24 } } }
    expect(stopped(days([60, 60, 60, 15]), 96, flushed)).toBe('none')
  })
  it('tells its numbers', () => {
    const found = finding('output-stopped', record(order, days([60, 60, 60, 4])), 96)
    expect(found?.says).toContain('Net output 4 mL in the 24 h to')
    expect(found?.says).toContain('usual 60 mL/day')
    expect(found?.threshold).toMatchObject({ name: 'resolvingStoppedMl', value: 10 })
  })
})

describe('another rule set', () => {
  it('moves the limit', () => {
    const rules = rulesWith({ stoppedMlPer8h: 20 })
    expect(stoppedChain(drainView(record({}, [reading(8, 20)]), 8, rules), 0)).toMatchObject({
      netMl: 20,
      limitMl: 20,
      hours: 8,
    })
    expect(stoppedChain(drainView(record({}, [reading(8, 21)]), 8, rules), 0)).toBeNull()
  })
})

describe('notDraining', () => {
  it('is the newest statement that stands', () => {
    const of = record({}, [
      state(5, { draining: false }),
      state(7, { draining: false }),
      state(9, { draining: true }),
    ])
    expect(notDraining(drainView(of, 10))?.when).toBe(Date.parse('2026-03-02T07:00:00Z'))
  })
})
