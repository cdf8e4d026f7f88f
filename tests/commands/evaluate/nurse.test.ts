import { describe, expect, it } from 'vitest'
import { callTime, clinicClock, learns } from '../../../lib/commands/evaluate/nurse.ts'
import type { Truth } from '../../../lib/simulate/index.ts'
import { placeInTime } from '../../../lib/simulate/place-in-time.ts'
import type { KeptFlag } from '../../../lib/store/flags.ts'

const start = '2026-03-16T16:00:00.000Z' // 10:00 in Denver, a Monday
const clock = clinicClock(placeInTime(start, 'America/Denver'), Date.parse(start), 30)
const flag = (more: Partial<KeptFlag>): KeptFlag =>
  ({
    code: 'leak',
    drain: 'd1',
    nature: 'clinical',
    urgency: 'within-1h',
    openedAt: start,
    since: start,
    state: 'open',
    ...more,
  }) as KeptFlag
const called = (more: Partial<KeptFlag>) => new Date(callTime(flag(more), clock)).toISOString()

describe('the simulated nurse', () => {
  it('calls at once and within the hour whatever the time of day', () => {
    expect(called({ urgency: 'at-once' })).toBe('2026-03-16T16:05:00.000Z')
    expect(called({ urgency: 'within-1h', openedAt: '2026-03-17T09:00:00.000Z' })).toBe(
      '2026-03-17T09:20:00.000Z',
    )
  })

  it('calls the rest in the next round', () => {
    expect(called({ urgency: 'within-24h' })).toBe('2026-03-16T19:00:00.000Z')
    expect(called({ urgency: 'within-24h', openedAt: '2026-03-16T20:00:00.000Z' })).toBe(
      '2026-03-17T15:00:00.000Z',
    )
    expect(called({ urgency: 'within-3d' })).toBe('2026-03-17T16:00:00.000Z')
  })

  it('leaves upkeep to the reminder until it is due within a day', () => {
    expect(callTime(flag({ nature: 'upkeep', urgency: 'within-3d' }), clock)).toBe(Number.POSITIVE_INFINITY)
    expect(called({ nature: 'upkeep', urgency: 'within-24h' })).toBe('2026-03-16T20:00:00.000Z')
  })

  it('learns what can be felt, a slow fall only when asked or once half is gone', () => {
    const event = (type: Truth['type'], halfFrom: string | null): Truth => ({
      type,
      drain: 'd1',
      onset: start,
      halfFrom,
      feverFrom: null,
      end: null,
      ownCall: null,
    })
    const at = Date.parse(start) + 3_600_000
    expect(learns(event('drain-out', start), [], at)).toBe(true)
    expect(learns(event('drain-out', start), [], at - 7_200_000)).toBe(false)
    expect(learns(event('gradual-obstruction', '2026-03-20T00:00:00Z'), [flag({})], at)).toBe(false)
    expect(
      learns(event('gradual-obstruction', '2026-03-20T00:00:00Z'), [flag({ code: 'output-decline' })], at),
    ).toBe(true)
    expect(learns(event('recovery', null), [flag({})], at)).toBe(false)
    expect(learns(event('recovery', null), [flag({ code: 'removal-check' })], at)).toBe(true)
  })
})
