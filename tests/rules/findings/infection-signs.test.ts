import { describe, expect, it } from 'vitest'
import type { Appearance, Skin } from '../../../lib/domain/words.ts'
import {
  type DrainOverrides,
  drain,
  dressing,
  event,
  finding,
  judged,
  reading,
  record,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const fever = (of: ReturnType<typeof record>, hours: number) => urgency('infection-signs', of, hours, null)
const hot = (temperatureC: number, hours = 10) => symptoms(hours, { temperatureC })

describe('fever and chills', () => {
  it('count from 38.0 °C on, of the whole patient, within the hour', () => {
    expect([fever(record({}, [hot(37.9)]), 11), fever(record({}, [hot(38)]), 11)]).toEqual([
      'none',
      'within-1h',
    ])
    expect(fever(record({}, [symptoms(10, { chills: true })]), 11)).toBe('within-1h')
    expect(fever(record({}, [symptoms(10, { chills: false, temperatureC: 36.6 })]), 11)).toBe('none')
  })
  it('are held to the most cautious of the drains that are in', () => {
    const two = (feverC: number, removedAt: string | null = null) =>
      record([drain(), drain({ id: 'd2', removedAt, plan: { overrides: { feverC } } })], [hot(37.6)])
    expect([fever(two(37.5), 11), fever(two(37.7), 11)]).toEqual(['within-1h', 'none'])
    expect(fever(two(37.5, '2026-03-02T05:00:00Z'), 11)).toBe('none') // that drain is gone
    // A bolder drain does not make the other bolder.
    expect(
      fever(record([drain(), drain({ id: 'd2', plan: { overrides: { feverC: 39 } } })], [hot(38)]), 11),
    ).toBe('within-1h')
  })
  it('are not cured by silence, nor by one normal reading within 24 h', () => {
    const of = record({}, [hot(38.6), hot(37, 12)])
    expect([fever(record({}, [hot(38.6)]), 900), fever(of, 33.9), fever(of, 34)]).toEqual([
      'within-1h',
      'within-1h',
      'none',
    ])
    expect(times(finding('infection-signs', of, 20, null))).toEqual({ since: 10, actBy: 11 })
  })
  it('stand without a break from one to the next', () => {
    const of = record({}, [
      hot(38.6),
      hot(37, 12),
      symptoms(30, { chills: true }),
      symptoms(31, { chills: false }),
    ])
    expect(times(finding('infection-signs', of, 50, null))?.since).toBe(10)
    expect([fever(of, 53.9), fever(of, 54)]).toEqual(['within-1h', 'none'])
  })
  it('are not ended by a new tube', () => {
    expect(fever(record({}, [hot(39)], [event(11, 'exchanged')]), 12)).toBe('within-1h')
  })
  it('tell both, with the limit', () => {
    const found = finding(
      'infection-signs',
      record({}, [symptoms(10, { temperatureC: 38.4, chills: true }, { id: 'r1' })]),
      11,
      null,
    )
    expect(found?.says).toBe(
      'Temperature 38.4 °C reported Mon 2 Mar, 10:00 (limit 38 °C), and chills reported Mon 2 Mar, 10:00.',
    )
    expect(found?.evidence.map((e) => [e.report, e.what, e.value, e.unit])).toEqual([
      ['r1', 'temperature', 38.4, 'Cel'],
      ['r1', 'chills', true, null],
    ])
    expect(found?.threshold).toMatchObject({ name: 'feverC', value: 38, confidence: 'published' })
  })
})

describe('what the drain and its site look like', () => {
  const fluid = (appearance: Appearance, order: DrainOverrides = {}) =>
    urgency('infection-signs', record(order, [reading(10, 50, { appearance })]), 11)
  const skin = (state: Skin, order: DrainOverrides = {}) =>
    urgency('infection-signs', record(order, [dressing(10, { skin: state })]), 11)
  it('cloudy fluid or pus may wait a day, except in a collection, where it is what is drained', () => {
    for (const look of ['cloudy', 'pus'] as const) {
      expect(fluid(look), look).toBe('within-24h')
      expect(fluid(look, { kind: 'pleural' }), look).toBe('within-24h')
      expect(fluid(look, { kind: 'collection' }), look).toBe('none')
      expect(fluid(look, { usualAppearance: look }), look).toBe('none')
    }
    expect(fluid('clear')).toBe('none')
  })
  it('red skin or pus at the site, of any kind', () => {
    expect([skin('red'), skin('pus'), skin('red', { kind: 'collection' })]).toEqual([
      'within-24h',
      'within-24h',
      'within-24h',
    ])
    expect([skin('intact'), skin('broken')]).toEqual(['none', 'none'])
  })
  it('the fluid counts for 24 h, the skin as the newest statement has it', () => {
    const looks = record({}, [
      reading(10, 50, { appearance: 'pus' }),
      reading(12, 50, { appearance: 'clear' }),
    ])
    expect([urgency('infection-signs', looks, 33.9), urgency('infection-signs', looks, 34)]).toEqual([
      'within-24h',
      'none',
    ])
    const healed = record({}, [dressing(10, { skin: 'red' }), dressing(12, { skin: 'intact' })])
    expect([urgency('infection-signs', healed, 11), urgency('infection-signs', healed, 12)]).toEqual([
      'within-24h',
      'none',
    ])
    expect(
      urgency(
        'infection-signs',
        record({}, [dressing(10, { skin: 'red' }), dressing(12, { found: 'clean' })]),
        500,
      ),
    ).toBe('within-24h')
  })
  it('a new tube does not heal the skin, removal ends it', () => {
    expect(
      urgency('infection-signs', record({}, [dressing(10, { skin: 'pus' })], [event(11, 'exchanged')]), 12),
    ).toBe('within-24h')
    expect(
      urgency('infection-signs', record({}, [dressing(10, { skin: 'pus' })], [event(11, 'removed')]), 12),
    ).toBe('none')
  })
  it('is another finding than the fever: one of the drain, one of the patient', () => {
    const of = record({}, [hot(38), dressing(10, { skin: 'red' })])
    expect(
      judged(of, 11)
        .findings.filter((f) => f.code === 'infection-signs')
        .map((f) => [f.drain, f.urgency]),
    ).toEqual([
      [null, 'within-1h'],
      ['d1', 'within-24h'],
    ])
  })
})
