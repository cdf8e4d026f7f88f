import { describe, expect, it } from 'vitest'
import { displaced } from '../../../lib/rules/findings/drain-out.ts'
import {
  closed,
  drain,
  drainView,
  event,
  finding,
  record,
  state,
  times,
  urgency,
} from '../../support/build.ts'

const out = state(10, { position: 'out' })
const told = (...after: ReturnType<typeof state>[]) => record({}, [out, ...after])

describe('drain-out', () => {
  it('is at once; of a bulb within the hour', () => {
    expect(times(finding('drain-out', told(), 11))).toEqual({ since: 10, actBy: 10 })
    expect(times(finding('drain-out', record({ kind: 'bulb' }, [out]), 11))).toEqual({ since: 10, actBy: 11 })
    expect(urgency('drain-out', told(), 11)).toBe('at-once')
    expect(urgency('drain-out', record({ kind: 'bulb' }, [out]), 11)).toBe('within-1h')
  })
  it('is not raised by another position', () => {
    expect(urgency('drain-out', record({}, [state(10, { position: 'moved' })]), 11)).toBe('none')
    expect(urgency('drain-out', record({}, [state(10, { position: 'in-place' })]), 11)).toBe('none')
  })
  it('is taken back by no later report and by no correction, however much later', () => {
    const wrong = state(10, { position: 'out' }, { id: 'x' })
    expect(urgency('drain-out', told(state(12, { position: 'in-place' })), 1000)).toBe('at-once')
    expect(
      urgency(
        'drain-out',
        record({}, [wrong, state(10, { position: 'in-place' }, { supersedes: 'x', received: 12 })]),
        13,
      ),
    ).toBe('at-once')
  })
  it.each(['removed', 'replaced', 'exchanged', 'placed'] as const)(
    'ends once the drain was %s, and not before',
    (type) => {
      const of = record({}, [out], [event(14, type)])
      expect([urgency('drain-out', of, 13.9), urgency('drain-out', of, 14)]).toEqual(['at-once', 'none'])
    },
  )
  it.each(['position-checked', 'uncapped', 'capped'] as const)('does not end with %s', (type) => {
    expect(urgency('drain-out', record({}, [out], [event(14, type)]), 15)).toBe('at-once')
  })
  it('ends when it is closed, for what had been received by then', () => {
    expect(urgency('drain-out', record({}, [out], [closed(14, 'drain-out')]), 15)).toBe('none')
    expect(urgency('drain-out', record({}, [out], [closed(14, 'leak')]), 15)).toBe('at-once')
    const late = state(10, { position: 'out' }, { received: 15 })
    expect(times(finding('drain-out', record({}, [late], [closed(14, 'drain-out')]), 16))).toEqual({
      since: 15,
      actBy: 15,
    })
    expect(
      urgency('drain-out', record({}, [out, state(16, { position: 'out' })], [closed(14, 'drain-out')]), 17),
    ).toBe('at-once')
  })
  it('said late of the tube before, is not said of the new one', () => {
    const late = state(10, { position: 'out' }, { received: 20 })
    expect(urgency('drain-out', record({}, [late], [event(15, 'replaced')]), 21)).toBe('none')
    expect(
      urgency('drain-out', record({}, [state(16, { position: 'out' })], [event(15, 'replaced')]), 21),
    ).toBe('at-once')
  })
  it('of one drain says nothing of another', () => {
    const of = record([drain(), drain({ id: 'd2' })], [out])
    expect(urgency('drain-out', of, 11, 'd2')).toBe('none')
  })
  it('tells what was reported and when, on the patient’s clock', () => {
    const found = finding('drain-out', record({}, [state(10, { position: 'out' }, { id: 'r7' })]), 11)
    expect(found?.says).toContain('Mon 2 Mar, 10:00')
    expect(found?.evidence).toEqual([
      { report: 'r7', at: '2026-03-02T10:00:00.000Z', what: 'position', value: 'out', unit: null },
    ])
  })
})

describe('displaced', () => {
  it('is the newest such statement of this tube', () => {
    const view = drainView(told(state(12, { position: 'out' })), 20)
    expect(displaced(view, 'out')?.when).toBe(Date.parse('2026-03-02T12:00:00Z'))
    expect(displaced(view, 'moved')).toBeNull()
  })
  it('is over for what was stated up to an instant that ends it', () => {
    const view = drainView(told(), 20)
    const ten = Date.parse('2026-03-02T10:00:00Z')
    expect(displaced(view, 'out', ten)).toBeNull()
    expect(displaced(view, 'out', ten - 1)).not.toBeNull()
  })
})
