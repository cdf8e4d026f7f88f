import { describe, expect, it } from 'vitest'
import type { Drain } from '../../../lib/domain/record.ts'
import { at, event, finding, flush, judged, record, times, urgency } from '../../support/build.ts'

const order: { plan: Partial<Drain['plan']> } = { plan: { flush: { volumeMl: 10, everyHours: 12 } } }
const missed = (of: ReturnType<typeof record>, hours: number) => urgency('flush-missed', of, hours)

describe('flush-missed', () => {
  it('is due two intervals after the last flush: a reminder, within three days', () => {
    const of = record(order, [flush(10, 10)])
    expect([missed(of, 33.99), missed(of, 34)]).toEqual(['none', 'within-3d'])
    expect(times(finding('flush-missed', of, 40))).toEqual({ since: 34, actBy: 106 })
    expect(finding('flush-missed', of, 40)?.nature).toBe('upkeep')
  })
  it('counts from the later of new tube and enrolment where no flush came since', () => {
    expect([missed(record(order), 23.9), missed(record(order), 24)]).toEqual(['none', 'within-3d'])
    const enrolled = record(order, [], [], { enrolledAt: at(50) })
    expect([missed(enrolled, 73.9), missed(enrolled, 74)]).toEqual(['none', 'within-3d'])
    for (const type of ['exchanged', 'replaced', 'placed', 'uncapped'] as const) {
      const renewed = record(order, [flush(10, 10)], [event(30, type)])
      expect([missed(renewed, 53.9), missed(renewed, 54)], type).toEqual(['none', 'within-3d'])
    }
  })
  it('takes any flush for one, also blocked or of unknown volume', () => {
    expect(missed(record(order, [flush(20, null, { ease: 'blocked' })]), 43.9)).toBe('none')
  })
  it('is over with the next flush, from its receipt on', () => {
    const of = record(order, [flush(10, 10), flush(33, 10, { received: 36 })])
    expect([missed(of, 35), missed(of, 36)]).toEqual(['within-3d', 'none'])
  })
  it('believes no flush of the future', () => {
    expect(missed(record(order, [flush(500, 10, { received: 10 })]), 34)).toBe('within-3d')
  })
  it('is asked only where flushes are ordered', () => {
    expect(missed(record({}), 500)).toBe('none')
  })
  it('says when to look again', () => {
    expect(judged(record(order, [flush(3, 10)]), 4).nextCheckAt).toBe(at(24)) // never logged, 24 h on
    expect(judged(record(order, [flush(-3, 10)], [], { enrolledAt: at(-4) }), 4).nextCheckAt).toBe(at(24))
  })
})
