import { describe, expect, it } from 'vitest'
import { prepare } from '../../../lib/rules/series/prepare.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import {
  at,
  closed,
  days,
  drain,
  event,
  flush,
  reading,
  record,
  START,
  state,
  symptoms,
} from '../../support/build.ts'

const HOUR = 3_600_000
const ms = (hours: number) => START + hours * HOUR
const read = (of: Parameters<typeof prepare>[0], hours: number) => prepare(of, standardRuleSet, ms(hours))

describe('prepare', () => {
  it('sorts statements by their time, then receipt, then report, whatever their order in the record', () => {
    const told = [
      reading(30, 3, { id: 'late', received: 31 }),
      reading(30, 2, { id: 'b' }),
      reading(10, 9),
      reading(30, 1, { id: 'a' }),
    ]
    const [d1] = read(record({}, told), 40).drains
    expect(d1?.readings.map((r) => r.value.volumeMl)).toEqual([9, 1, 2, 3])
  })

  it('takes what was received, or happened, at the instant and leaves out what came later', () => {
    const of = record(
      { cappedAt: at(50), removedAt: at(60) },
      [reading(8, 10, { received: 24 }), reading(9, 10, { received: 24.001 })],
      [event(24, 'exchanged'), event(25, 'removed')],
    )
    const prepared = read(of, 24)
    expect(prepared.reports).toHaveLength(1)
    expect(prepared.events.map((e) => e.type)).toEqual(['exchanged'])
    expect(prepared.known).toEqual([ms(0), ms(24)])
  })

  it('orders by receipt what is dated more than 15 minutes after it, and by its own time what is within', () => {
    const of = record({}, [reading(24.25, 1, { received: 24 }), reading(24.26, 2, { received: 24 })])
    const [d1] = read(of, 30).drains
    expect(d1?.readings.map((r) => [r.value.volumeMl, r.when])).toEqual([
      [2, ms(24)],
      [1, ms(24.25)],
    ])
  })

  it('lists each instant at which something became known once', () => {
    const of = record(
      {},
      [reading(10, 5), symptoms(10, { pain: 1 }), reading(11, 5, { received: 12 })],
      [event(12, 'exchanged')],
    )
    expect(read(of, 99).known).toEqual([ms(0), ms(10), ms(12)])
  })

  it('knows nothing yet before enrolment and placement, and still has a now', () => {
    expect(read(record({}), -5).known).toEqual([ms(-5)])
  })

  it('puts in what an order leaves open: course by kind, external, not an only kidney', () => {
    const prepared = read(
      record([
        drain(),
        drain({ id: 'd2', kind: 'bulb' }),
        drain({ id: 'd3', kind: 'bulb', course: 'steady' }),
      ]),
      1,
    )
    expect(prepared.drains.map((d) => d.course)).toEqual(['steady', 'resolving', 'steady'])
    expect(prepared.drains[0]).toMatchObject({
      internalExternal: false,
      onlyKidney: false,
      bagCapacityMl: null,
      markMl: null,
    })
    expect(prepared).toMatchObject({ usualPain: 0, corrected: false })
  })

  it('holds one drain to its own thresholds and leaves the others alone', () => {
    const of = record([drain({ plan: { overrides: { feverC: 37.6 } } }), drain({ id: 'd2' })])
    expect(read(of, 1).drains.map((d) => d.limits.feverC)).toEqual([37.6, 38])
  })

  it('hears no statement where a question was left open', () => {
    const of = record(
      {},
      [
        state(5, { leak: null }),
        symptoms(6, { temperatureC: null, chills: null, pain: null }),
        symptoms(7, {}),
        flush(8, null),
        ...days([null]),
      ],
      [closed(9, 'leak')],
    )
    const prepared = read(of, 99)
    const [d1] = prepared.drains
    expect(
      [
        prepared.temperatures,
        prepared.chills,
        prepared.pains,
        prepared.generals,
        d1?.leaks,
        d1?.eases,
      ].flat(),
    ).toEqual([])
    expect(d1?.readings).toHaveLength(1) // 'could not measure' is a log
    expect(d1?.flushes).toHaveLength(1)
  })

  it('hears an empty list of general symptoms: none of them', () => {
    expect(read(record({}, [symptoms(5, { general: [] })]), 9).generals).toHaveLength(1)
  })
})
