import { describe, expect, it } from 'vitest'
import type { PatientRecord } from '../../../lib/domain/record.ts'
import { prepare } from '../../../lib/rules/series/prepare.ts'
import { View } from '../../../lib/rules/series/view.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import {
  at,
  closed,
  drain,
  drainView,
  event,
  reading,
  record,
  START,
  state,
  symptoms,
} from '../../support/build.ts'

const ms = (hours: number) => START + hours * 3_600_000
/** A record as it is known at `now`, looked at as it was known at `cut`. */
const view = (of: PatientRecord, cut: number, now = 1000) =>
  new View(prepare(of, standardRuleSet, ms(now)), ms(cut))
const volumes = (of: PatientRecord, cut: number) => {
  const then = view(of, cut)
  return then.seen(then.drains[0]?.facts.readings ?? []).map((r) => r.value.volumeMl)
}

describe('what had been received', () => {
  it('counts from the instant of its receipt', () => {
    const of = record({}, [reading(8, 100, { received: 10 })])
    expect(volumes(of, 9.999)).toEqual([])
    expect(volumes(of, 10)).toEqual([100])
  })
  it('counts until a correction is received, and the correction instead of it', () => {
    const of = record({}, [reading(8, 40, { id: 'a' }), reading(8, 400, { supersedes: 'a', received: 12 })])
    expect(volumes(of, 11.9)).toEqual([40])
    expect(volumes(of, 12)).toEqual([400])
  })
  it('of several corrections is the one received last, whatever their order and whichever they name', () => {
    const of = record({}, [
      reading(8, 3, { id: 'c', supersedes: 'b', received: 14 }),
      reading(8, 4, { id: 'd', supersedes: 'a', received: 16 }),
      reading(8, 2, { id: 'b', supersedes: 'a', received: 12 }),
      reading(8, 1, { id: 'a' }),
    ])
    expect([8, 12, 14, 16].map((hour) => volumes(of, hour))).toEqual([[1], [2], [3], [4]])
  })
  it('is the correction where it was received before what it corrects', () => {
    const of = record({}, [
      reading(8, 40, { id: 'a', received: 20 }),
      reading(8, 400, { supersedes: 'a', received: 12 }),
    ])
    expect(volumes(of, 12)).toEqual([400])
    expect(volumes(of, 20)).toEqual([400])
  })
  it('takes back everything that the corrected report said', () => {
    const of = record({}, [
      symptoms(8, { temperatureC: 39 }, { id: 'a' }),
      symptoms(8, {}, { supersedes: 'a', received: 12 }),
    ])
    const then = view(of, 12)
    expect(then.newest(then.record.temperatures)).toBeNull()
  })
  it('and what was ever stated, for the few things that a correction does not take back', () => {
    const of = record({}, [
      state(8, { position: 'out' }, { id: 'a' }),
      state(8, { position: 'in-place' }, { supersedes: 'a', received: 12 }),
    ])
    const then = view(of, 12)
    expect(then.everStated(then.drains[0]?.facts.positions ?? []).map((s) => s.value)).toEqual([
      'out',
      'in-place',
    ])
    expect(view(of, 7).everStated(then.drains[0]?.facts.positions ?? [])).toEqual([])
  })
})

describe('newest', () => {
  it('is the one of the latest time, not of the latest receipt', () => {
    const of = record({}, [symptoms(20, { pain: 6 }), symptoms(8, { pain: 1 }, { received: 30 })])
    const then = view(of, 40)
    expect(then.newest(then.record.pains)?.value).toBe(6)
  })
})

describe('lastReportAt', () => {
  it('is the newest receipt, whatever the report says; null before the first', () => {
    const of = record({}, [symptoms(8, {}), reading(2, 5, { received: 9 }), reading(30, 5)])
    expect(view(of, 7).lastReportAt).toBeNull()
    expect(view(of, 10).lastReportAt).toBe(ms(9))
  })
})

describe('active', () => {
  it('holds the drains that are placed and not removed', () => {
    const of = record([drain(), drain({ id: 'd2', removedAt: at(5) }), drain({ id: 'd3', placedAt: at(20) })])
    expect(view(of, 10).active.map((d) => d.id)).toEqual(['d1'])
  })
})

describe('closedAt', () => {
  const of = record(
    {},
    [],
    [
      closed(5, 'leak'),
      closed(9, 'leak'),
      closed(12, 'leak'),
      closed(8, 'drain-out'),
      event(10, 'exchanged'),
    ],
  )
  it('is the newest closing of that code by then', () => {
    expect(drainView(of, 10).closedAt('leak')).toBe(ms(9))
    expect(drainView(of, 4).closedAt('leak')).toBeNull()
    expect(drainView(of, 10).closedAt('drain-moved')).toBeNull()
  })
  it('is not that of another drain', () => {
    expect(drainView(record({}, [], [closed(5, 'leak', 'd2')]), 10).closedAt('leak')).toBeNull()
  })
})
