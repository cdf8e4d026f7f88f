import { describe, expect, it } from 'vitest'
import {
  criterion,
  hoursText,
  localTime,
  mL,
  netOutput,
  noted,
  percent,
  reading,
  readingsOf,
  stated,
  threshold,
} from '../../../lib/rules/findings/telling.ts'
import { drainView, record, START, reading as told } from '../../support/build.ts'

const view = drainView(
  record({}, [told(8, 100, { id: 'a' }), told(8, 50, { id: 'b' }), told(20, null, { id: 'c' })]),
  30,
)

describe('numbers', () => {
  it.each([
    [409.6, '410 mL'],
    [10, '10 mL'],
    [9.96, '10 mL'],
    [9.94, '9.9 mL'],
    [0, '0 mL'],
    [-0.04, '0 mL'],
    [-18.4, '-18 mL'],
    [-2.25, '-2.2 mL'],
    [100_000, '100000 mL'],
  ])('mL(%d) is %s', (value, text) => {
    expect(mL(value)).toBe(text)
  })
  it('percent and hours are rounded', () => {
    expect([percent(0.341), percent(1), percent(0)]).toEqual(['34%', '100%', '0%'])
    expect([hoursText(8), hoursText(8.04), hoursText(8.26)]).toEqual(['8 h', '8 h', '8.3 h'])
  })
})

describe('times', () => {
  it('are on the patient’s clock, on both sides of a clock change', () => {
    expect(localTime('America/Denver', Date.parse('2026-03-08T08:59:00Z'))).toBe('Sun 8 Mar, 01:59')
    expect(localTime('America/Denver', Date.parse('2026-03-08T09:00:00Z'))).toBe('Sun 8 Mar, 03:00')
    expect(localTime('Australia/Lord_Howe', Date.parse('2026-03-08T09:00:00Z'))).toBe('Sun 8 Mar, 20:00')
  })
})

describe('evidence', () => {
  it('names report, instant, what, value and unit', () => {
    const [first] = view.facts.readings
    expect(first && reading(first)).toEqual({
      report: 'a',
      at: '2026-03-02T08:00:00.000Z',
      what: 'reading',
      value: 100,
      unit: 'mL',
    })
    expect(first && stated(first, 'position', 'out')).toMatchObject({
      report: 'a',
      what: 'position',
      value: 'out',
      unit: null,
    })
    expect(noted(START, 'capped')).toEqual({
      report: null,
      at: '2026-03-02T00:00:00.000Z',
      what: 'capped',
      value: null,
      unit: null,
    })
  })
  it('of stretches is every reading that ends them', () => {
    expect(readingsOf(view.output.own).map((e) => [e.report, e.value])).toEqual([
      ['a', 100],
      ['b', 50],
      ['c', null],
    ])
  })
  it('of a net output comes first, to a tenth', () => {
    expect(
      netOutput(133.333, START, view.output.own.slice(0, 1)).map((e) => [e.report, e.what, e.value]),
    ).toEqual([
      [null, 'net output', 133.3],
      ['a', 'reading', 100],
      ['b', 'reading', 50],
    ])
  })
})

describe('limits', () => {
  it('carry the value in force with the source and confidence of the rule set', () => {
    expect(threshold('surgeHours', view.limits)).toMatchObject({
      name: 'surgeHours',
      value: 2,
      unit: 'h',
      source: expect.stringContaining('litfl.com'),
      confidence: 'published',
    })
    expect(criterion('leak', true, 'somewhere', 'published')).toEqual({
      name: 'leak',
      value: true,
      unit: null,
      source: 'somewhere',
      confidence: 'published',
    })
  })

  it('call another value than the shipped one a local choice, and keep the source beside what it carries', () => {
    expect(threshold('surgeHours', { ...view.limits, surgeHours: 4 })).toEqual({
      name: 'surgeHours',
      value: 4,
      unit: 'h',
      source: expect.stringMatching(
        /^Set by the clinic, for all or for this drain\. The shipped value is 2 h: .*litfl/,
      ),
      confidence: 'local choice',
    })
  })
})
