import { describe, expect, it } from 'vitest'
import type { PatientRecord } from '../../../lib/domain/record.ts'
import { stretchesOf, worstNetMl } from '../../../lib/rules/series/stretches.ts'
import { at, days, drain, drainView, event, flush, reading, record, START } from '../../support/build.ts'

const stretches = (of: PatientRecord, hours = 1000) => stretchesOf(drainView(of, hours))
/** From, to (hours from START) and net of each stretch. */
const told = (of: PatientRecord, hours = 1000) =>
  stretches(of, hours).map((s) => [(s.start - START) / 3_600_000, (s.end - START) / 3_600_000, s.netMl])

describe('where a stretch starts', () => {
  it('at the reading before it; the first at placement', () => {
    expect(told(record({}, [reading(8, 100), reading(20, 50)]))).toEqual([
      [0, 8, 100],
      [8, 20, 50],
    ])
  })
  it('has none without a reading, and none in the instant of placement, which is a start all the same', () => {
    expect(told(record({}))).toEqual([])
    expect(told(record({}, [reading(0, 30), reading(6, 60)]))).toEqual([[0, 6, 60]])
  })
  it.each(['exchanged', 'replaced', 'placed', 'uncapped'] as const)('at the tube %s since', (type) => {
    const of = record({}, [reading(8, 100), reading(20, 50)], [event(14, type)])
    expect(told(of)).toEqual([
      [0, 8, 100],
      [14, 20, 50],
    ])
  })
  it('not at a capping, a position check or a removal', () => {
    const of = record(
      {},
      [reading(8, 100), reading(20, 50)],
      [event(9, 'capped'), event(10, 'position-checked'), event(11, 'removed')],
    )
    expect(told(of)[1]).toEqual([8, 20, 50])
  })
  it('leaves a reading in the very instant of an exchange with the tube before', () => {
    const of = record({}, [reading(8, 100), reading(20, 50), reading(30, 7)], [event(20, 'exchanged')])
    expect(told(of)).toEqual([
      [0, 8, 100],
      [8, 20, 50],
      [20, 30, 7],
    ])
  })
  it('at enrolment where no reading came since the newest tube', () => {
    const enrolled = { enrolledAt: at(10) }
    expect(told(record({}, [reading(24, 100)], [], enrolled))).toEqual([[10, 24, 100]])
    // A reading of before the enrolment is a better start.
    expect(told(record({}, [reading(6, 40, { received: 12 }), reading(24, 100)], [], enrolled))).toEqual([
      [0, 6, 40],
      [6, 24, 100],
    ])
    // A new tube makes the older reading worth nothing here.
    expect(
      told(
        record({}, [reading(6, 40, { received: 12 }), reading(24, 100)], [event(8, 'exchanged')], enrolled),
      )[1],
    ).toEqual([10, 24, 100])
  })
  it('tells two tubes of one day apart: removed and placed anew', () => {
    const of = record(
      {},
      [reading(9, 90), reading(11, 1), reading(18, 30)],
      [event(10, 'removed'), event(15, 'placed')],
    )
    expect(told(of)).toEqual([
      [0, 9, 90],
      [9, 11, 1],
      [15, 18, 30],
    ])
  })
})

describe('readings', () => {
  it('are put in order of their time, not of their arrival', () => {
    const of = record({}, [reading(20, 50), reading(8, 100, { received: 30 })])
    expect(told(of)).toEqual([
      [0, 8, 100],
      [8, 20, 50],
    ])
    expect(told(of, 25)).toEqual([[0, 20, 50]]) // the other one has not been received yet
  })
  it('count once at one instant where they are equal, and are added where they differ', () => {
    expect(told(record({}, [reading(8, 150), reading(8, 150)]))).toEqual([[0, 8, 150]])
    expect(told(record({}, [reading(8, 150), reading(8, 230)]))).toEqual([[0, 8, 380]])
    expect(told(record({}, [reading(8, 150), reading(8, 150), reading(8, 230)]))).toEqual([[0, 8, 380]])
  })
  it('are unknown where they could not be measured, and the next one starts there', () => {
    expect(told(record({}, [reading(8, null), reading(12, 20)]))).toEqual([
      [0, 8, null],
      [8, 12, 20],
    ])
    expect(told(record({}, [reading(8, null), reading(8, 20)]))).toEqual([[0, 8, 20]])
  })
  it('enter no stretch when dated over 15 minutes after receipt, or before placement', () => {
    expect(told(record({}, [reading(8.25, 100, { received: 8 })]))).toEqual([[0, 8.25, 100]])
    expect(told(record({}, [reading(8.26, 100, { received: 8 })]))).toEqual([])
    expect(told(record({}, [reading(-0.1, 100, { received: 1 }), reading(8, 50)]))).toEqual([[0, 8, 50]])
  })
  it('of one instant stay together although a wrongly dated one arrived between them', () => {
    const of = record({}, [
      reading(10, 100, { received: 10 }),
      reading(15, 7, { received: 10.05, id: 'x' }),
      reading(10.05, 30, { received: 10.04 }),
      reading(10.05, 40, { received: 10.1 }),
    ])
    expect(told(of)).toEqual([
      [0, 10, 100],
      [10, 10.05, 70],
    ])
  })
  it('of another drain do not count', () => {
    const of = record([drain(), drain({ id: 'd2' })], [reading(8, 100, { of: 'd2' }), reading(20, 50)])
    expect(told(of)).toEqual([[0, 20, 50]])
  })
  it('may be huge, and zero is a zero', () => {
    expect(told(record({}, [reading(8, 100_000), reading(9, 0)])).map(([, , net]) => net)).toEqual([
      100_000, 0,
    ])
  })
})

describe('flushes', () => {
  it('are subtracted from the start of a stretch on, and at its end belong to the next: empty first, then flush', () => {
    const of = record({}, [flush(0, 5), reading(8, 100), flush(8, 10), reading(20, 50), flush(20, 10)])
    expect(told(of)).toEqual([
      [0, 8, 95],
      [8, 20, 40],
    ])
  })
  it('may leave less than nothing', () => {
    expect(told(record({}, [flush(1, 30), reading(8, 12)]))).toEqual([[0, 8, -18]])
  })
  it('of before an exchange stay with the tube before', () => {
    expect(
      told(record({}, [reading(8, 100), flush(9, 10), reading(20, 50)], [event(10, 'exchanged')]))[1],
    ).toEqual([10, 20, 50])
  })
})

describe('an ordered flush that was not recorded', () => {
  const order = { plan: { flush: { volumeMl: 10, everyHours: 8 } } }
  const missing = (of: PatientRecord) => stretches(of).map((s) => s.missingFlushMl)
  it('is what the hours make due, rounded down, less what was recorded', () => {
    expect(missing(record(order, [reading(7.9, 100)]))).toEqual([0])
    expect(missing(record(order, [reading(8, 100)]))).toEqual([10])
    expect(missing(record(order, [reading(23.9, 100)]))).toEqual([20])
    expect(missing(record(order, [flush(3, 10), reading(23.9, 100)]))).toEqual([10])
    expect(missing(record(order, [flush(1, 10), flush(2, 10), flush(3, 10), reading(23.9, 100)]))).toEqual([
      0,
    ])
  })
  it('is none without an order', () => {
    expect(missing(record({}, days([400])))).toEqual([0])
  })
  it('makes the net worse, and an unknown net stays unknown', () => {
    const [measured, unknown] = stretches(record(order, [reading(8, 14), reading(16, null)]))
    expect(measured && worstNetMl(measured)).toBe(4) // 14 less the 10 that were due once in 8 h
    expect(unknown && worstNetMl(unknown)).toBeNull()
  })
})

describe('a stretch too long to date', () => {
  it('is one of more than 48 hours', () => {
    expect(stretches(record({}, [reading(48, 100), reading(96.1, 100)])).map((s) => s.coarse)).toEqual([
      false,
      true,
    ])
  })
})
