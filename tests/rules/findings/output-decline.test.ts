import { describe, expect, it } from 'vitest'
import { abruptDecline } from '../../../lib/rules/findings/output-decline.ts'
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
  times,
  urgency,
} from '../../support/build.ts'

/** Three days at the usual, then one of `ml`: told at hour 96. */
const after = (usual: number, ml: number, order: DrainOverrides = {}) =>
  record(order, days([usual, usual, usual, ml]))
const decline = (of: ReturnType<typeof record>, hours = 96) => urgency('output-decline', of, hours)

describe('an abrupt fall', () => {
  it.each([
    ['under half of 400', 400, 199, 'within-1h'],
    ['half of it is not under half', 400, 200, 'none'],
    ['50 mL below a usual 90', 90, 40, 'within-1h'],
    ['49 mL below it', 90, 41, 'none'],
    ['nothing at all', 400, 0, 'within-1h'],
    ['less than nothing', 400, -0, 'within-1h'],
  ])('%s', (_, usual, ml, expected) => {
    expect(decline(after(usual, ml))).toBe(expected)
  })

  it('tells its numbers, its readings and its limit', () => {
    const found = finding(
      'output-decline',
      record({}, [...days([400, 420, 410]), reading(96, 140, { id: 'r9' })]),
      96,
    )
    expect(found?.says).toContain('Net output 140 mL in the 24 h to')
    expect(found?.says).toContain("34% of this drain's usual 410 mL/day") // 140 / 410 = 0.341
    expect(found?.nature).toBe('clinical')
    const midnight = '2026-03-06T00:00:00.000Z'
    expect(found?.evidence).toEqual([
      { report: null, at: midnight, what: 'net output', value: 140, unit: 'mL' },
      { report: 'r9', at: midnight, what: 'reading', value: 140, unit: 'mL' },
    ])
    expect(found?.threshold).toMatchObject({ name: 'declineRatio', value: 0.5, confidence: 'local choice' })
  })

  it('stands since the receipt of its evidence, and an hour is left from there', () => {
    const of = record({}, [...days([400, 400, 400]), reading(96, 100, { received: 99 })])
    expect(decline(of, 98.9)).toBe('none')
    expect(times(finding('output-decline', of, 110))).toEqual({ since: 99, actBy: 100 })
  })

  it('keeps its since while it goes on, and ends when 24 h bring half again', () => {
    const of = record({}, days([400, 400, 400, 100, 120, 200]))
    expect(times(finding('output-decline', of, 130))?.since).toBe(96)
    expect(decline(of, 144)).toBe('none')
  })

  it('may wait a day where the drain is internal and external', () => {
    expect(decline(after(400, 100, { drainage: 'internal-external' }))).toBe('within-24h')
  })

  it('counts what was flushed in', () => {
    const of = (flushedMl: number) =>
      record({}, [...days([400, 400, 400]), flush(80, flushedMl), reading(96, 210)])
    expect([decline(of(10)), decline(of(11))]).toEqual(['none', 'within-1h'])
  })

  it('is judged by this drain’s own share', () => {
    // 0.4 of 400 is 160.
    const order = { plan: { overrides: { declineRatio: 0.4 } } }
    expect([decline(after(400, 160, order)), decline(after(400, 159, order))]).toEqual(['none', 'within-1h'])
    expect(finding('output-decline', after(400, 159, order), 96)?.threshold.value).toBe(0.4)
  })

  it('is provisional against the ward’s figure', () => {
    const of = record({ usualMlPerDay: 400 }, days([100]))
    expect(finding('output-decline', of, 24)?.says).toContain('provisional')
    expect(decline(of, 24)).toBe('within-1h')
  })
})

describe('no fall can be told', () => {
  it('without a baseline', () => {
    expect(decline(record({}, days([400, 400, 0])), 72)).toBe('none')
  })
  it('where less than nine tenths of the 24 h are known', () => {
    const unknown = (hours: number) =>
      record({}, [...days([400, 400, 400]), reading(72 + hours, null), reading(96, 50)])
    expect(decline(unknown(2.4))).toBe('within-1h') // 21.6 of 24 h
    expect(decline(unknown(2.5))).toBe('none')
  })
  it('over a stretch of more than 48 h', () => {
    const over = (hours: number) => record({}, [...days([400, 400, 400]), reading(72 + hours, 100)])
    expect(decline(over(48), 200)).toBe('within-1h')
    expect(decline(over(48.1), 200)).toBe('none')
  })
  it('after the last reading: what follows is unknown, not zero', () => {
    expect(decline(record({}, days([400, 400, 400, 400])), 400)).toBe('none')
  })
})

describe('what raises none', () => {
  it('a drain that should dwindle', () => {
    expect(decline(after(400, 100, { kind: 'collection' }))).toBe('none')
    expect(decline(after(400, 100, { course: 'resolving' }))).toBe('none')
    expect(decline(after(400, 100, { kind: 'bulb', course: 'steady' }))).toBe('within-1h')
  })
  it('a capped drain', () => {
    expect(decline(record({}, days([400, 400, 400, 100]), [event(90, 'capped')]))).toBe('none')
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped'] as const)(
    'a fall of before the tube was %s',
    (type) => {
      expect(decline(record({}, days([400, 400, 400, 100]), [event(97, type)]), 98)).toBe('none')
    },
  )
  it('a removed drain', () => {
    expect(decline(record({}, days([400, 400, 400, 100]), [event(97, 'removed')]), 98)).toBe('none')
  })
})

describe('a lasting fall', () => {
  const fall = [400, 400, 400, 400, ...Array.from({ length: 10 }, () => 150)]
  it('does not become its own normal', () => {
    const of = record({}, days(fall))
    expect(times(finding('output-decline', of, 336))).toEqual({ since: 120, actBy: 121 })
  })
  it('does once staff have closed it', () => {
    // Closed at the end of day 7, whose own baseline is that of days 0 to 6, four of them at 400. A day later it is
    // that of days 1 to 7, four of them at 150.
    const of = record({}, days(fall), [closed(192, 'output-decline')])
    expect(decline(of, 192)).toBe('within-1h') // what is closed may still hold
    expect(decline(of, 216)).toBe('none')
  })
})

describe('a slow fall', () => {
  const sunk = [...Array.from({ length: 12 }, () => 400), ...Array.from({ length: 7 }, () => 280)]
  it('of a third for a week is told within a day', () => {
    const found = finding('output-decline', record({}, days(sunk)), 456)
    expect(found?.urgency).toBe('within-24h')
    expect(found?.says).toContain('280 mL a day')
    expect(found?.says).toContain('70%')
  })
  it('is not told of a drain that should dwindle', () => {
    expect(decline(record({ course: 'resolving' }, days(sunk)), 456)).toBe('none')
  })
  it('gives way to an abrupt one', () => {
    expect(decline(record({}, days([...sunk, 100])), 480)).toBe('within-1h')
  })
})

describe('abruptDecline', () => {
  it('looks as from an earlier reading too, and at none before the first', () => {
    const view = drainView(record({}, days([400, 400, 400, 100, 400])), 200)
    expect(abruptDecline(view, 3)?.netMl).toBe(100)
    expect([abruptDecline(view, 4), abruptDecline(view, -1)]).toEqual([null, null])
  })
})
