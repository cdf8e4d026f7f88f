import { describe, expect, it } from 'vitest'
import type { Report } from '../../../lib/domain/record.ts'
import { at, event, finding, judged, record, state, symptoms, times, urgency } from '../../support/build.ts'

const capped = [event(10, 'capped')]
const failing = (told: Report[], hours = 12, usual = 0) =>
  urgency('cap-failing', record({}, told, capped, { usual: { pain: usual } }), hours)

describe('cap-failing', () => {
  it.each([
    ['38.0 °C', symptoms(11, { temperatureC: 38 }), 'within-1h'],
    ['37.9 °C', symptoms(11, { temperatureC: 37.9 }), 'none'],
    ['chills', symptoms(11, { chills: true }), 'within-1h'],
    ['a leak', state(11, { leak: true }), 'within-1h'],
    ['pain of 4', symptoms(11, { pain: 4 }), 'within-1h'],
    ['pain of 3', symptoms(11, { pain: 3 }), 'none'],
    ['being dizzy', symptoms(11, { general: ['dizzy'] }), 'none'],
  ] as const)('%s after the capping', (_, told, expected) => {
    expect(failing([told])).toBe(expected)
  })
  it('not by what was stated up to the capping', () => {
    for (const hours of [9, 10])
      expect(
        failing([symptoms(hours, { temperatureC: 39, chills: true, pain: 9 }), state(hours, { leak: true })]),
      ).toBe('none')
    expect(failing([symptoms(10.1, { pain: 9 })])).toBe('within-1h')
  })
  it('not by pain that is usual for the person', () => {
    expect([
      failing([symptoms(11, { pain: 5 })], 12, 5),
      failing([symptoms(11, { pain: 6 })], 12, 5),
    ]).toEqual(['none', 'within-1h'])
  })
  it('not without a cap, and with one that the order names', () => {
    expect(urgency('cap-failing', record({}, [symptoms(11, { pain: 9 })]), 12)).toBe('none')
    expect(urgency('cap-failing', record({ cappedAt: at(10) }, [symptoms(11, { pain: 9 })]), 12)).toBe(
      'within-1h',
    )
  })
  it('is held to this drain’s own fever', () => {
    const order = { plan: { overrides: { feverC: 37.6 } } }
    expect(urgency('cap-failing', record(order, [symptoms(11, { temperatureC: 37.6 })], capped), 12)).toBe(
      'within-1h',
    )
  })
  it('ends when uncapped, when the tube is out for good, and 24 h after fever with a newer normal statement', () => {
    const told = [symptoms(11, { temperatureC: 38.5 }), symptoms(13, { temperatureC: 37 })]
    expect(urgency('cap-failing', record({}, told, [...capped, event(14, 'uncapped')]), 15)).toBe('none')
    expect(urgency('cap-failing', record({}, told, [...capped, event(14, 'removed')]), 15)).toBe('none')
    expect([failing(told, 34.9), failing(told, 35)]).toEqual(['within-1h', 'none'])
    expect(judged(record({}, told, capped), 30).nextCheckAt).toBe(at(35))
  })
  it('pain and leak end with a newer statement', () => {
    expect(failing([symptoms(11, { pain: 8 }), symptoms(12, { pain: 3 })], 13)).toBe('none')
    expect(failing([state(11, { leak: true }), state(12, { leak: false })], 13)).toBe('none')
  })
  it('tells what was stated and since when', () => {
    const found = finding(
      'cap-failing',
      record({}, [symptoms(11, { temperatureC: 38.2, pain: 5 })], capped),
      12,
    )
    expect(found?.says).toContain('temperature 38.2 °C, pain 5 of 10')
    expect(times(found)).toEqual({ since: 11, actBy: 12 })
  })
})
