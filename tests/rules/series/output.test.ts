import { describe, expect, it } from 'vitest'
import type { PatientRecord } from '../../../lib/domain/record.ts'
import { comparable, covered, type Last24 } from '../../../lib/rules/series/output.ts'
import { at, days, drainView, event, reading, record } from '../../support/build.ts'

const output = (of: PatientRecord, hours = 2000) => drainView(of, hours).output

describe('the last 24 h', () => {
  it('are the 24 real hours up to the last reading', () => {
    // 100 mL in the 12 h to hour 12, 240 mL in the 24 h to hour 36: of the 24 h to hour 36 that is 240.
    expect(output(record({}, [reading(12, 100), reading(36, 240)])).last24).toMatchObject({
      netMl: 240,
      coverage: 1,
    })
    // 6 h more with 30 mL: 18 of the 24 h stretch are 180.
    expect(
      output(record({}, [reading(12, 100), reading(36, 240), reading(42, 30)])).last24?.netMl,
    ).toBeCloseTo(210, 9)
  })
  it('are covered as far as there are readings', () => {
    expect(output(record({}, [reading(12, 100)])).last24).toMatchObject({ netMl: 100, coverage: 0.5 })
    expect(output(record({}, [reading(12, null), reading(18, 30)])).last24?.coverage).toBe(0.25)
  })
  it('are none before the first reading', () => {
    expect(output(record({})).last24).toBeNull()
  })
})

describe('whether the last 24 h can be compared', () => {
  const limits = drainView(record({}), 1).limits
  const last = (coverage: number, coarse: boolean) => ({ coverage, coarse }) as Last24
  it('from a coverage of 0.9 on; for a fall, with no stretch too long to date in them', () => {
    expect(covered(last(0.9, true), limits)).toBe(true)
    expect(covered(last(0.899, false), limits)).toBe(false)
    expect(comparable(last(0.9, false), limits)).toBe(true)
    expect(comparable(last(0.9, true), limits)).toBe(false)
  })
})

describe('the tubes of a drain', () => {
  it('are told apart: all stretches, and those of this tube', () => {
    const of = output(record({}, days([400, 400, 300]), [event(60, 'exchanged')]))
    expect([of.all.length, of.own.length]).toEqual([3, 1])
    expect(of.days).toMatchObject([{ date: '2026-03-04', netMl: 300, coverage: 0.5 }]) // from hour 60 to 72
    expect(of.complete).toEqual([])
  })
  it('have days that neither a long nor a suspect stretch touches', () => {
    const of = output(
      record({ bagCapacityMl: 600 }, [
        ...days([400]),
        reading(48, 1300),
        reading(97, 900),
        reading(120, 400),
      ]),
    )
    // Day 1 is of more than two bags; days 2, 3 and an hour of 4 come from 49 h.
    expect(of.complete.map((day) => day.date)).toEqual([
      '2026-03-02',
      '2026-03-03',
      '2026-03-04',
      '2026-03-05',
      '2026-03-06',
    ])
    expect(of.clean.map((day) => day.date)).toEqual(['2026-03-02'])
  })
})

describe('a drain placed later than the record begins', () => {
  it('has days from its placement on only', () => {
    const of = record({ placedAt: at(30) }, [reading(48, 90)])
    expect(output(of).days).toMatchObject([{ date: '2026-03-03', netMl: 90, coverage: 0.75 }])
  })
})
