import { expect, it } from 'vitest'
import { type Ordered, orderChanges } from '../../lib/domain/order-changes.ts'

const orders = (change: Partial<Ordered> = {}): Ordered => ({
  ...{ course: null, drainage: null, bagCapacityMl: 600, markMl: null, vessel: 'bag', logEveryHours: 24 },
  ...{ dressingEveryHours: 48, flushVolumeMl: 10, flushEveryHours: 24, flushAt: null, exchangeEveryDays: 90 },
  ...{ dressingType: null, removalPlan: null, overrides: null },
  ...change,
})

it('of the same orders there is nothing to say', () => {
  expect(orderChanges(orders(), orders())).toEqual([])
})

it('each change is said with what it was before, and what is ordered no more', () => {
  const before = orders({ overrides: { severePain: { value: 6 } } })
  const after = orders({
    ...{ logEveryHours: 8, flushEveryHours: 12, exchangeEveryDays: null, flushAt: ['08:00', '20:00'] },
    ...{ vessel: 'bulb', overrides: { declineRatio: { value: 0.4 } } },
  })
  expect(orderChanges(before, after)).toEqual([
    'collected in bulb (was bag)',
    'log every 8 h (was every 24 h)',
    'flush 10 mL every 12 h (was 10 mL every 24 h)',
    'flush at 08:00, 20:00 (was none)',
    'exchange none (was every 90 days)',
    'Call below, share of usual: 0.4 (was the clinic’s)',
    'Severe pain from, of 10: the clinic’s (was 6)',
  ])
})
