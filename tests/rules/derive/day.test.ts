import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DerivedDay } from '../../../lib/domain/day-derivation.ts'
import { assess } from '../../../lib/rules/assess.ts'
import { deriveDay } from '../../../lib/rules/derive/day.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { at, days, event, flush, reading, record, START } from '../../support/build.ts'
import { anyInstant, anyRecord } from '../../support/records.ts'

const derive = (of: ReturnType<typeof record>, hours: number, date: string) =>
  DerivedDay.parse(deriveDay(of, standardRuleSet, at(hours), 'd1', date))

describe('how a day came about', () => {
  it('shows each stretch with the part that falls in the day, its flushes subtracted', () => {
    const of = record({}, [reading(12, 120), flush(14, 10), flush(20, null), reading(36, 250)])
    const { day, stretches, gaps } = derive(of, 40, '2026-03-02')
    expect(day).toEqual({ date: '2026-03-02', netMl: 240, coverage: 1, hours: 24 })
    expect(stretches).toMatchObject([
      {
        from: at(0),
        to: at(12),
        startsAt: 'tube',
        volumeMl: 120,
        flushedMl: 0,
        netMl: 120,
        inDay: { hours: 12, netMl: 120 },
      },
      {
        from: at(12),
        to: at(36),
        startsAt: 'reading',
        volumeMl: 250,
        flushedMl: 10,
        netMl: 240,
        inDay: { from: at(12), to: at(24), hours: 12, netMl: 120 },
        flushes: [{ volumeMl: 10 }, { volumeMl: null }],
      },
    ])
    expect(gaps).toEqual([])
  })

  it('names what is not known, and why', () => {
    const of = record({}, [reading(6, 60), reading(12, null), reading(18, 30)])
    const { gaps, day } = derive(of, 20, '2026-03-02')
    expect(day.netMl).toBe(90)
    expect(gaps.map(({ hours, why }) => [hours, why])).toEqual([
      [6, 'not-measured'],
      [2, 'after-last'],
      [4, 'to-come'],
    ])
    const late = record({ placedAt: at(-48) }, [reading(20, 40)], [event(15, 'replaced')], {
      enrolledAt: at(10),
    })
    expect(derive(late, 30, '2026-03-02').gaps.map(({ hours, why }) => [hours, why])).toEqual([
      [15, 'before-first'],
      [4, 'after-last'],
    ])
    expect(derive(record({}), 12, '2026-03-02').gaps.map(({ why }) => why)).toEqual([
      'before-first',
      'to-come',
    ])
  })

  it('says between two tubes that nothing lay', () => {
    const of = record({}, [reading(6, 60), reading(20, 50)], [event(8, 'removed'), event(12, 'replaced')])
    expect(derive(of, 24, '2026-03-02').gaps).toMatchObject([
      { from: at(6), to: at(12), why: 'between' },
      { from: at(20), why: 'after-last' },
    ])
  })

  it('marks what is at least that much, too long to date, or in doubt', () => {
    const full = record({ bagCapacityMl: 600 }, [reading(24, 600)])
    expect(derive(full, 30, '2026-03-02')).toMatchObject({
      day: { atLeast: true },
      stretches: [{ atLeast: true, readings: [{ atLeast: true }] }],
    })
    const total = record({ bagCapacityMl: 600 }, [reading(24, 600, { total: true })])
    expect(derive(total, 30, '2026-03-02').day.atLeast).toBeUndefined()
    expect(derive(total, 30, '2026-03-02').stretches[0]?.atLeast).toBe(false)
    const tooMuch = record({ bagCapacityMl: 600 }, [reading(24, 1300)])
    expect(derive(tooMuch, 30, '2026-03-02').stretches[0]?.doubts).toEqual([{ why: 'bag', expectedMl: null }])
    const long = record({}, [reading(60, 600)])
    expect(derive(long, 70, '2026-03-02').stretches[0]?.coarse).toBe(true)
    const ounces = record({}, [...days([300, 300, 300]), reading(96, 10)])
    expect(derive(ounces, 100, '2026-03-05').stretches[0]?.doubts).toEqual([
      { why: 'ounces', expectedMl: 300 },
    ])
  })

  it('lists readings that enter nothing: corrected ones, and those whose time cannot be', () => {
    const of = record({ placedAt: at(2) }, [
      reading(1, 11),
      reading(10, 22, { id: 'wrong' }),
      reading(10, 33, { received: 11, id: 'right', supersedes: 'wrong' }),
      reading(22, 44, { received: 20 }),
      reading(2, 55),
    ])
    const { leftOut, day } = derive(of, 30, '2026-03-02')
    expect(day.netMl).toBe(33)
    expect(leftOut.map(({ volumeMl, why }) => [volumeMl, why])).toEqual([
      [11, 'before-placement'],
      [55, 'covers-nothing'],
      [22, 'corrected'],
      [44, 'after-receipt'],
    ])
  })

  it('is nothing of a drain that is not there', () => {
    expect(deriveDay(record({}), standardRuleSet, at(1), 'd9', '2026-03-02')).toBeNull()
  })
})

describe('on random records, over changes of the clock', { timeout: 120_000 }, () => {
  it('its parts add up to the day of the assessment, and with the gaps to its hours', () => {
    fc.assert(
      fc.property(anyRecord, anyInstant, (of, now) => {
        for (const { drain, days: told } of assess(of, standardRuleSet, now).drains)
          for (const day of told) {
            const found = DerivedDay.parse(deriveDay(of, standardRuleSet, now, drain, day.date))
            expect(found.day).toEqual(day)
            const measured = found.stretches.filter(({ netMl }) => netMl !== null)
            const sum = measured.reduce((mL, { inDay }) => mL + (inDay.netMl as number), 0)
            if (day.netMl === null) expect(measured).toEqual([])
            else expect(Math.round(sum * 1e9) / 1e9).toBe(day.netMl)
            const known = measured.reduce((h, { inDay }) => h + inDay.hours, 0)
            const unknown = found.gaps.reduce((h, { hours }) => h + hours, 0)
            expect(known + unknown).toBeCloseTo(day.hours, 6)
            expect(known / day.hours).toBeCloseTo(day.coverage, 6)
            for (const { flushes, flushedMl } of found.stretches)
              expect(flushes.reduce((mL, { volumeMl }) => mL + (volumeMl ?? 0), 0)).toBeCloseTo(flushedMl, 9)
          }
      }),
      { numRuns: 100 },
    )
  })

  it('holds on a day of 25 hours and one of 23', () => {
    const zone = 'America/Denver'
    const of = (from: string, to: string) =>
      record(
        { placedAt: from },
        [{ id: 'r', receivedAt: to, readings: [{ drain: 'd1', at: to, volumeMl: 500 }] }],
        [],
        { timeZone: zone, enrolledAt: from },
      )
    const hoursAt = (instant: string) => (Date.parse(instant) - START) / 3_600_000
    const autumn = derive(
      of('2026-10-31T18:00:00Z', '2026-11-02T20:00:00Z'),
      hoursAt('2026-11-02T20:00:00Z'),
      '2026-11-01',
    )
    expect(autumn.day).toEqual({ date: '2026-11-01', netMl: 250, coverage: 1, hours: 25 })
    expect(autumn.stretches[0]?.inDay).toMatchObject({ hours: 25, netMl: 250 })
    const spring = derive(
      of('2026-03-07T19:00:00Z', '2026-03-09T17:00:00Z'),
      hoursAt('2026-03-09T17:00:00Z'),
      '2026-03-08',
    )
    expect(spring.day.netMl).toBe(250)
    expect(spring.stretches[0]?.inDay.hours).toBe(23)
  })
})
