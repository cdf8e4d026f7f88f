import { describe, expect, it } from 'vitest'
import type { Appearance } from '../../../lib/domain/words.ts'
import {
  type DrainOverrides,
  event,
  finding,
  judged,
  reading,
  record,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const seen = (hours: number, appearance: Appearance) => reading(hours, 50, { appearance })
const bleeding = (
  hours: number,
  appearance: Appearance,
  order: DrainOverrides = {},
  events: ReturnType<typeof event>[] = [],
) => urgency('bleeding', record(order, [seen(hours, appearance)], events), hours)

describe('red and clots', () => {
  it('are within the hour at any time of a tube that is not a bulb or pleural', () => {
    for (const look of ['red', 'clots'] as const)
      for (const hours of [1, 300]) expect(bleeding(hours, look), `${look} at ${hours}`).toBe('within-1h')
  })
  it.each(['bulb', 'pleural'] as const)(
    'red is expected of a %s for 72 h after it was put in; clots are not',
    (kind) => {
      expect([bleeding(71.9, 'red', { kind }), bleeding(72, 'red', { kind })]).toEqual(['none', 'within-1h'])
      expect(bleeding(1, 'clots', { kind })).toBe('within-1h')
      expect(bleeding(171.9, 'red', { kind }, [event(100, 'exchanged')])).toBe('none')
    },
  )
  it('cannot wait beside fainting or dizziness, be it usual or not', () => {
    const of = (general: 'fainted' | 'dizzy' | 'vomiting') =>
      urgency(
        'bleeding',
        record({}, [seen(300, 'red'), symptoms(299, { general: [general] })], [], {
          usual: { general: ['dizzy'] },
        }),
        300,
      )
    expect([of('fainted'), of('dizzy'), of('vomiting')]).toEqual(['at-once', 'at-once', 'within-1h'])
  })
  it('falls back to the hour when the dizziness counts no more, and the blood still does', () => {
    const of = record({}, [
      seen(300, 'red'),
      symptoms(300, { general: ['dizzy'] }),
      symptoms(310, { general: [] }),
    ])
    expect([urgency('bleeding', of, 323.9), urgency('bleeding', of, 324)]).toEqual(['at-once', 'within-1h'])
    expect(times(finding('bleeding', of, 324))).toEqual({ since: 300, actBy: 301 })
    expect(judged(of, 320).nextCheckAt).toBe('2026-03-15T12:00:00.000Z') // hour 324
  })
})

describe('pink', () => {
  it('is expected for 48 h after placement, exchange or replacement; later it may wait a day', () => {
    expect([bleeding(47.9, 'pink'), bleeding(48, 'pink')]).toEqual(['none', 'within-24h'])
    for (const type of ['exchanged', 'replaced', 'placed'] as const) {
      const tube = [event(100, type)]
      expect([bleeding(147.9, 'pink', {}, tube), bleeding(148, 'pink', {}, tube)], type).toEqual([
        'none',
        'within-24h',
      ])
    }
    expect(bleeding(101, 'pink', {}, [event(100, 'uncapped')])).toBe('within-24h')
  })
  it('is judged by its own time: what was expected stays so', () => {
    expect(urgency('bleeding', record({}, [seen(40, 'pink')]), 200)).toBe('none')
    expect(urgency('bleeding', record({}, [seen(130, 'pink')], [event(140, 'exchanged')]), 150)).toBe(
      'within-24h',
    )
  })
  it.each(['bulb', 'pleural'] as const)('is expected of a %s for 72 h', (kind) => {
    expect([bleeding(71.9, 'pink', { kind }), bleeding(72, 'pink', { kind })]).toEqual(['none', 'within-24h'])
  })
})

describe('how it ends', () => {
  it('24 h after blood was last reported, once a newer look is another one', () => {
    const of = record({}, [seen(100, 'red'), seen(110, 'straw')])
    expect([urgency('bleeding', of, 123.9), urgency('bleeding', of, 124)]).toEqual(['within-1h', 'none'])
    expect(judged(of, 115).nextCheckAt).toBe('2026-03-07T04:00:00.000Z')
  })
  it('not by silence, and not by a new tube', () => {
    expect(urgency('bleeding', record({}, [seen(100, 'red')]), 1000)).toBe('within-1h')
    expect(urgency('bleeding', record({}, [seen(100, 'red')], [event(101, 'exchanged')]), 102)).toBe(
      'within-1h',
    )
  })
  it('by removal', () => {
    expect(urgency('bleeding', record({}, [seen(100, 'red')], [event(101, 'removed')]), 102)).toBe('none')
  })
  it('red gives way to pink', () => {
    const of = record({}, [seen(100, 'red'), seen(110, 'pink')])
    expect([urgency('bleeding', of, 123.9), urgency('bleeding', of, 124)]).toEqual([
      'within-1h',
      'within-24h',
    ])
    expect(times(finding('bleeding', of, 124))).toEqual({ since: 100, actBy: 124 })
  })
})

describe('what is none', () => {
  it.each(['clear', 'straw', 'cloudy', 'pus', 'bile-green', 'bile-dark', 'enteric', 'serous'] as const)(
    '%s',
    (look) => {
      expect(bleeding(300, look)).toBe('none')
    },
  )
  it('what is usual for this drain', () => {
    expect(bleeding(300, 'pink', { usualAppearance: 'pink' })).toBe('none')
    expect(bleeding(300, 'red', { usualAppearance: 'pink' })).toBe('within-1h')
  })
})
