import { describe, expect, it } from 'vitest'
import { ofSeries, ofTube } from '../../../lib/rules/series/tube.ts'
import type { DrainOverrides } from '../../support/build.ts'
import { at, drainView, event, record, START } from '../../support/build.ts'

const ms = (hours: number) => START + hours * 3_600_000
const tube = (order: DrainOverrides, events: Parameters<typeof record>[2], hours: number) =>
  drainView(record(order, [], events), hours).tube

describe('whether a drain is in', () => {
  it('from placement on, until it is removed by the order or by a staff event', () => {
    expect(tube({ placedAt: at(5) }, [], 4.9).active).toBe(false)
    expect(tube({ placedAt: at(5) }, [], 5).active).toBe(true)
    expect(tube({ removedAt: at(9) }, [], 8.9).active).toBe(true)
    expect(tube({ removedAt: at(9) }, [], 9).active).toBe(false)
    expect(tube({}, [event(9, 'removed')], 9).active).toBe(false)
  })
  it.each(['placed', 'replaced', 'exchanged'] as const)(
    'again once it was %s, in the same instant too',
    (type) => {
      expect(tube({}, [event(9, 'removed'), event(15, type)], 16).active).toBe(true)
      expect(tube({}, [event(9, 'removed'), event(9, type)], 16).active).toBe(true)
      expect(tube({}, [event(9, type), event(15, 'removed')], 16).active).toBe(false)
    },
  )
  it('not when it was removed in the instant of its first placement', () => {
    expect(tube({ removedAt: at(0) }, [], 1).active).toBe(false)
  })
})

describe('since when it is this tube', () => {
  it('since the newest placement, exchange or replacement; a series starts at an uncapping too', () => {
    const now = tube(
      {},
      [
        event(10, 'exchanged'),
        event(20, 'replaced'),
        event(30, 'exchanged'),
        event(35, 'capped'),
        event(40, 'uncapped'),
      ],
      50,
    )
    expect(now).toMatchObject({
      newest: ms(30),
      placedOrReplaced: ms(20),
      start: ms(40),
      renewed: true,
      cappedSince: null,
      uncappedAt: ms(40),
    })
    expect(now.news).toEqual([ms(0), ms(10), ms(20), ms(30)])
    expect(now.starts).toEqual([ms(0), ms(10), ms(20), ms(30), ms(40)])
  })
  it('is not renewed by a staff event that repeats the placement', () => {
    expect(tube({}, [event(0, 'placed')], 5).renewed).toBe(false)
  })
  it('hears nothing of another drain', () => {
    expect(tube({}, [event(10, 'exchanged', 'd2')], 50).newest).toBe(ms(0))
  })
})

describe('whether it is capped', () => {
  it('from cappedAt, or the first event that caps, until uncapped', () => {
    expect(tube({ cappedAt: at(10) }, [], 9.9).cappedSince).toBeNull()
    expect(tube({ cappedAt: at(10) }, [], 10).cappedSince).toBe(ms(10))
    expect(tube({}, [event(10, 'capped'), event(12, 'capped')], 20).cappedSince).toBe(ms(10))
    expect(tube({ cappedAt: at(10) }, [event(20, 'uncapped')], 20).cappedSince).toBeNull()
    expect(tube({}, [event(10, 'capped'), event(12, 'uncapped'), event(14, 'capped')], 20)).toMatchObject({
      cappedSince: ms(14),
      uncappedAt: ms(12),
    })
  })
  it('stays so through an exchange', () => {
    expect(tube({ cappedAt: at(10) }, [event(12, 'exchanged')], 20).cappedSince).toBe(ms(10))
  })
  it('was never capped where it was only uncapped', () => {
    expect(tube({}, [event(12, 'uncapped')], 20)).toMatchObject({
      cappedSince: null,
      uncappedAt: null,
      start: ms(12),
    })
  })
})

describe('whose a statement is', () => {
  it('of the first tube from the instant of placement on', () => {
    const first = tube({}, [], 50)
    expect([ofTube(first, ms(0)), ofTube(first, ms(0) - 1)]).toEqual([true, false])
  })
  it('of the tube before in the very instant of a new one', () => {
    const renewed = tube({}, [event(10, 'exchanged')], 50)
    expect([ofTube(renewed, ms(10)), ofTube(renewed, ms(10) + 1)]).toEqual([false, true])
  })
  it('of this tube, and not of its new series, before an uncapping', () => {
    const uncapped = tube({}, [event(10, 'capped'), event(20, 'uncapped')], 50)
    expect([ofTube(uncapped, ms(15)), ofSeries(uncapped, ms(15))]).toEqual([true, false])
    expect([ofSeries(uncapped, ms(20)), ofSeries(uncapped, ms(20) + 1)]).toEqual([false, true])
  })
})
