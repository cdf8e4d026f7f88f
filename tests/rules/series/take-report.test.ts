import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { prepare } from '../../../lib/rules/series/prepare.ts'
import { ms } from '../../../lib/rules/series/take-report.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { at, reading, record, START, symptoms } from '../../support/build.ts'

const HOUR = 3_600_000

describe('ms', () => {
  it('gives the instant of a text, also when another was asked for between', () => {
    expect([ms('2026-03-02T08:05:00-07:00'), ms('1970-01-01T00:00:01Z'), ms('2026-03-02T15:05:00Z')]).toEqual(
      [1772463900000, 1000, 1772463900000],
    )
  })
})

describe('ms, against the language', () => {
  it('agrees on every instant in the stored form, from the year 100 on', () => {
    const from = new Date('0100-01-01T00:00:00Z')
    fc.assert(
      fc.property(
        fc.date({ min: from, max: new Date('9999-12-31T23:59:59.999Z'), noInvalidDate: true }),
        (date) => {
          expect(ms(date.toISOString())).toBe(date.getTime())
        },
      ),
    )
  })
  it.each([
    '2026-03-02T08:05:00-07:00',
    '2026-03-02T15:05Z',
    '2026-03-02T15:05:00.12Z',
    '2026-03-02T15:05:00.1234567Z',
  ])('and leaves %s to it', (text) => {
    expect(ms(text)).toBe(Date.parse(text))
  })
})

describe('takeReport', () => {
  it('puts each answer on the list of its question, and what was not answered on none', () => {
    const told = [reading(8, 100, { appearance: 'pink' }), symptoms(9, { temperatureC: 38.2, pain: null })]
    const prepared = prepare(record({}, told), standardRuleSet, Date.parse(at(24)))
    expect(prepared.drains[0]?.appearances.map((s) => s.value)).toEqual(['pink'])
    expect(prepared.temperatures.map((s) => s.value)).toEqual([38.2])
    expect(prepared.pains).toEqual([])
    expect(prepared.chills).toEqual([])
  })
  it('orders what is dated later than it was received by its receipt', () => {
    const told = [reading(30, 100, { appearance: 'red', received: 8 })]
    const prepared = prepare(record({}, told), standardRuleSet, Date.parse(at(48)))
    expect(prepared.drains[0]?.appearances[0]).toMatchObject({
      at: START + 30 * HOUR,
      when: START + 8 * HOUR,
    })
  })
})
