import { describe, expect, it } from 'vitest'
import { closed, event, finding, reading, record, state, symptoms, times } from '../support/build.ts'

const since = (...args: Parameters<typeof finding>) => times(finding(...args))?.since
const leaks = (hours: number, leak: boolean, received = hours) => state(hours, { leak }, { received })

describe('since when', () => {
  it('begins at the receipt of its evidence, not at its time', () => {
    expect(since('leak', record({}, [leaks(5, true, 9)]), 20)).toBe(9)
  })
  it('goes back through every report that left it standing', () => {
    expect(since('leak', record({}, [leaks(5, true), leaks(8, true), leaks(11, true)]), 20)).toBe(5)
  })
  it('starts anew after a gap', () => {
    expect(since('leak', record({}, [leaks(5, true), leaks(8, false), leaks(11, true)]), 20)).toBe(11)
  })
  it('starts anew after a gap that was known at the time, though a late report would have filled it', () => {
    // At hour 8 it was said to be dry; that it leaked at hour 9 was received at hour 12.
    expect(since('leak', record({}, [leaks(5, true), leaks(8, false), leaks(9, true, 12)]), 20)).toBe(12)
  })
  it('does not start anew because the evidence changed', () => {
    const told = [
      symptoms(5, { temperatureC: 39 }),
      symptoms(6, { temperatureC: 37 }),
      symptoms(20, { chills: true }),
    ]
    expect(since('infection-signs', record({}, told), 40, null)).toBe(5)
  })
  it('is when it became as urgent as it is', () => {
    const of = record({ kind: 'biliary' }, [reading(24, 1200), reading(48, 1600), reading(72, 1700)])
    expect([
      since('output-surge', of, 30),
      since('output-surge', of, 50),
      since('output-surge', of, 80),
    ]).toEqual([24, 48, 48])
  })
  it('goes back further once it is less urgent again', () => {
    const of = record({ kind: 'biliary' }, [reading(24, 1200), reading(48, 1600), reading(72, 1200)])
    expect(since('output-surge', of, 80)).toBe(24)
  })
  it('is the instant of a staff event that brought it', () => {
    const told = [state(5, { position: 'moved' }), symptoms(4, { temperatureC: 39 })]
    expect(
      since(
        'blocked-and-infected',
        record({}, [symptoms(4, { temperatureC: 39 })], [event(9.5, 'capped')]),
        20,
      ),
    ).toBe(9.5)
    expect(
      since(
        'drain-moved',
        record({}, [...told, state(12, { position: 'moved' })], [closed(8, 'drain-moved')]),
        20,
      ),
    ).toBe(12)
  })
  it('is the instant at which it became overdue, between two reports', () => {
    const order = { plan: { dressingEveryHours: 24 } }
    expect(since('dressing-overdue', record(order, [reading(30, 500), reading(40, 500)]), 40)).toBe(36)
    expect(since('dressing-overdue', record(order, [reading(30, 500), reading(40, 500)]), 60)).toBe(48)
  })
  it('is the receipt of a correction that brought it', () => {
    const told = [reading(8, 400, { id: 'a' }), reading(8, 0, { supersedes: 'a', received: 10 })]
    expect(since('output-stopped', record({}, told), 12)).toBe(10)
  })
  it('is the beginning of the record at the earliest', () => {
    expect(since('exchange-due', record({ plan: { exchangeEveryDays: 5 } }), 10)).toBe(0)
  })
})
