import { describe, expect, it } from 'vitest'
import { latestChange } from '@/app/ui/patient/latest-change.ts'
import { correctionNote, correctionReason } from '@/lib/domain/drain-change.ts'
import type { OrdersVersion } from '@/lib/domain/patient-page.ts'
import type { KeptStaffEvent } from '@/lib/domain/staff-event.ts'
import { NOW, page } from '../fixtures/page.ts'

/** So many seconds before the page was read. */
const ago = (seconds: number) => new Date(Date.parse(NOW) - seconds * 1000).toISOString()
const event = (part: Partial<KeptStaffEvent> = {}): KeptStaffEvent => ({
  ...{ id: 'e1', drain: 'd1', at: ago(9000), type: 'exchanged', code: null, note: null, callback: null },
  ...{ recordedAt: ago(20), by: 'R. Okafor', byId: 's1' },
  ...{ withdrawnAt: null, withdrawnBy: null, withdrawnWhy: null },
  ...part,
})
const orders = (part: Partial<OrdersVersion> = {}): OrdersVersion => ({
  ...{ version: 2, validFrom: ago(10), recordedAt: ago(10), by: 'R. Okafor', byId: 's1', why: 'stiff' },
  ...{ changes: ['log every 8 h (was 24 h)'], vessel: null, flushAt: null, dressingType: null },
  ...{ removalPlan: null, overrides: [] },
  ...part,
})

describe('what can be taken back', () => {
  it('is the latest of events and orders', () => {
    expect(latestChange(page({ events: [event()] }), 's1')).toMatchObject({
      says: 'The event is recorded. Exchanged, left kidney.',
      door: 'staff-events/e1/undo',
      isUndone: false,
    })
    const both = page({ events: [event()], orders: { d1: [orders(), orders({ version: 1, byId: 's1' })] } })
    expect(latestChange(both, 's1')).toMatchObject({
      says: 'The orders are changed. Version 2, left kidney: log every 8 h (was 24 h).',
      body: { drain: 'd1', version: 2 },
    })
  })
  it('is known as taken back once it was', () => {
    const gone = { ...orders(), drain: 'd1', withdrawnAt: ago(2), withdrawnBy: 'R. Okafor' }
    expect(latestChange(page({ withdrawnOrders: [gone] }), 's1')).toMatchObject({ isUndone: true })
  })
  it.each([
    ['somebody else’s', { byId: 's2' }],
    ['older than a minute', { recordedAt: ago(60) }],
    ['what came with a call', { callback: 'k1' }],
  ])('is not %s', (_what, part) => {
    expect(latestChange(page({ events: [event(part)] }), 's1')).toBeNull()
  })
  it('is nothing of a correction of a drain: the drain would stay corrected', () => {
    const corrected = page({
      events: [event()],
      notes: [
        {
          ...{ id: 'n1', at: ago(10), by: 'R. Okafor', byId: 's1', undoneAt: null, undoneBy: null },
          text: correctionNote('left is right.'),
        },
      ],
    })
    const fitted = orders({ why: correctionReason('biliary: misread') })
    expect(latestChange(corrected, 's1')).toBeNull()
    expect(latestChange({ ...corrected, orders: { d1: [fitted] } }, 's1')).toBeNull()
    expect(latestChange(page({ orders: { d1: [fitted] } }), 's1')).toBeNull()
    expect(latestChange({ ...corrected, events: [event({ recordedAt: ago(5) })] }, 's1')?.key).toBe(
      'event e1',
    )
  })
  it('is not the first orders: they came with the enrolment', () => {
    expect(latestChange(page({ orders: { d1: [orders({ version: 1 })] } }), 's1')).toBeNull()
  })
})
