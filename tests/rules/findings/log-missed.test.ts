import { describe, expect, it } from 'vitest'
import type { Drain } from '../../../lib/domain/record.ts'
import {
  at,
  type DrainOverrides,
  drain,
  event,
  finding,
  judged,
  reading,
  record,
  state,
  symptoms,
  times,
  urgency,
} from '../../support/build.ts'

const plan: { plan: Partial<Drain['plan']> } = { plan: { logEveryHours: 24 } }
/** What came in the 1000 hours before: enough for a drain that works. */
const plenty = 20_000
/** A tube of long ago, enrolled long ago, last read at hour 0. */
const old = (
  order: DrainOverrides = {},
  told: Parameters<typeof record>[1] = [],
  events: Parameters<typeof record>[2] = [],
) =>
  record({ ...plan, placedAt: at(-1000), ...order }, [reading(0, plenty), ...told], events, {
    enrolledAt: at(-1000),
  })
const missed = (of: ReturnType<typeof record>, hours: number, drainId = 'd1') =>
  urgency('log-missed', of, hours, drainId)

describe('a log that is late', () => {
  it('by 12 h is a reminder within three days; by 36 h within a day', () => {
    const of = old()
    expect([missed(of, 35.9), missed(of, 36), missed(of, 59.9), missed(of, 60)]).toEqual([
      'none',
      'within-3d',
      'within-3d',
      'within-24h',
    ])
    expect(times(finding('log-missed', of, 40))).toEqual({ since: 36, actBy: 108 })
    expect(times(finding('log-missed', of, 70))).toEqual({ since: 60, actBy: 84 })
    expect(finding('log-missed', of, 40)?.nature).toBe('upkeep')
    expect(judged(of, 1).nextCheckAt).toBe(at(36))
    expect(judged(of, 40).nextCheckAt).toBe(at(60))
  })
  it('is over with a reading, also one that could not be measured, from its receipt on', () => {
    const of = old({}, [reading(38, null, { received: 39 })])
    expect([missed(of, 38.9), missed(of, 39), missed(of, 73.9), missed(of, 74)]).toEqual([
      'within-3d',
      'none',
      'none',
      'within-3d',
    ])
  })
  it('is not put off by symptoms: words do not measure the bag', () => {
    expect(missed(old({}, [symptoms(20, { pain: 0 })]), 36)).toBe('within-3d')
  })
  it('counts a wrongly dated reading at its receipt', () => {
    expect(missed(old({}, [reading(900, 5, { received: 10 })]), 45.9)).toBe('none')
    expect(missed(old({}, [reading(900, 5, { received: 10 })]), 46)).toBe('within-3d')
  })
  it('counts from a new tube, an uncapping and enrolment too', () => {
    for (const type of ['exchanged', 'uncapped'] as const)
      expect(
        [missed(old({}, [], [event(30, type)]), 65.9), missed(old({}, [], [event(30, type)]), 66)],
        type,
      ).toEqual(['none', 'within-3d'])
    const enrolled = record({ ...plan, placedAt: at(-1000) }, [reading(-20, plenty, { received: 1 })])
    expect([missed(enrolled, 35.9), missed(enrolled, 36)]).toEqual(['none', 'within-3d'])
  })
  it('goes by its own order', () => {
    expect([
      missed(old({ plan: { logEveryHours: 8 } }), 19.9),
      missed(old({ plan: { logEveryHours: 8 } }), 20),
    ]).toEqual(['none', 'within-3d'])
  })
  it('is not asked of a removed drain', () => {
    expect(missed(old({}, [], [event(10, 'removed')]), 500)).toBe('none')
  })
  it('tells when it was last heard of', () => {
    expect(finding('log-missed', old(), 40)?.says).toBe(
      'Last log Mon 2 Mar, 00:00; a log is ordered every 24 h, and was due by Tue 3 Mar, 00:00.',
    )
  })
})

describe('a log that never came', () => {
  it('is within a day 24 h after the later of enrolment and placement', () => {
    const of = (placedAt: number, enrolledAt: number) =>
      record({ placedAt: at(placedAt) }, [symptoms(1, { pain: 0 })], [], { enrolledAt: at(enrolledAt) })
    expect([missed(of(-50, 0), 23.9), missed(of(-50, 0), 24)]).toEqual(['none', 'within-24h'])
    expect([missed(of(10, 0), 33.9), missed(of(10, 0), 34)]).toEqual(['none', 'within-24h'])
  })
})

describe('what makes a reminder more urgent', () => {
  it('becoming overdue in the first 7 days after placed or replaced', () => {
    const of = (lastRead: number, type?: 'replaced' | 'placed' | 'exchanged') =>
      record(plan, [reading(99, 2000), reading(lastRead, 2000)], type ? [event(100, type)] : [])
    // Overdue 36 h after the reading; the week ends at hour 168.
    expect(missed(of(131.9), 168)).toBe('within-24h')
    expect(missed(of(132), 168)).toBe('within-3d')
    // After a new tube at hour 100 the week ends at hour 268; an exchange starts none.
    expect([
      missed(of(231.9, 'replaced'), 268),
      missed(of(231.9, 'placed'), 268),
      missed(of(231.9, 'exchanged'), 268),
    ]).toEqual(['within-24h', 'within-24h', 'within-3d'])
  })
  it('a finding of within the hour or above that stands, of any drain or of the patient', () => {
    const pressing = (told: Parameters<typeof record>[1]) => missed(old({}, told), 40)
    expect(pressing([state(1, { leak: true })])).toBe('within-24h')
    expect(pressing([symptoms(1, { general: ['confused'] })])).toBe('within-24h')
    expect(pressing([symptoms(1, { general: ['dizzy'] })])).toBe('within-3d') // within 24 h is not above
    const two = record(
      [drain({ ...plan, placedAt: at(-1000) }), drain({ id: 'd2', placedAt: at(-1000) })],
      [reading(0, plenty), reading(0, plenty, { of: 'd2' }), state(1, { leak: true }, { of: 'd2' })],
      [],
      { enrolledAt: at(-1000) },
    )
    expect(missed(two, 40)).toBe('within-24h')
  })
  it('as long as that stands', () => {
    const of = old({}, [symptoms(20, { temperatureC: 39 }), symptoms(21, { temperatureC: 37 })])
    expect([missed(of, 43.9), missed(of, 44)]).toEqual(['within-24h', 'within-3d'])
    expect(times(finding('log-missed', of, 40))).toEqual({ since: 36, actBy: 60 })
    expect(judged(of, 40).nextCheckAt).toBe(at(44))
  })
})

describe('an only kidney', () => {
  it('is within a day 4 h late, and within the hour 12 h late', () => {
    const of = old({ onlyKidney: true })
    expect([missed(of, 27.9), missed(of, 28), missed(of, 35.9), missed(of, 36)]).toEqual([
      'none',
      'within-24h',
      'within-24h',
      'within-1h',
    ])
    expect(times(finding('log-missed', of, 40))).toEqual({ since: 36, actBy: 37 })
  })
  it('makes another drain’s reminder more urgent, and is not waited for by itself', () => {
    const of = record(
      [
        drain({ ...plan, placedAt: at(-1000), onlyKidney: true }),
        drain({ ...plan, id: 'd2', placedAt: at(-1000) }),
      ],
      [reading(0, plenty), reading(0, plenty, { of: 'd2' })],
      [],
      { enrolledAt: at(-1000) },
    )
    expect([missed(of, 40), missed(of, 40, 'd2')]).toEqual(['within-1h', 'within-24h'])
  })
})

describe('a capped drain', () => {
  it('gives no readings: any report is its log, at its receipt', () => {
    const of = old({}, [symptoms(20, { pain: 0 }, { received: 22 })], [event(5, 'capped')])
    expect([missed(of, 57.9), missed(of, 58)]).toEqual(['none', 'within-3d'])
  })
})
