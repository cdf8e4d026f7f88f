import { describe, expect, it } from 'vitest'
import { changedOrders, draftOfTemplate } from '@/app/ui/parts/orders-draft.ts'

const before = draftOfTemplate({
  ...{ logEveryHours: 24, dressingEveryHours: 72, flush: { volumeMl: 10, everyHours: 24 } },
  ...{ exchangeEveryDays: 90, bagCapacityMl: 600 },
})

describe('changed orders', () => {
  it('are those fields alone that are otherwise: what another ordered meanwhile is not written over', () => {
    expect(changedOrders(before, before)).toEqual({})
    expect(changedOrders({ ...before, logEveryHours: '12' }, before)).toEqual({ logEveryHours: 12 })
    expect(changedOrders({ ...before, bagCapacityMl: ' 600 ' }, before)).toEqual({})
  })
  it('say that an order ends', () => {
    expect(changedOrders({ ...before, flushMl: '', flushEveryHours: '' }, before)).toEqual({ flush: null })
    expect(changedOrders({ ...before, exchangeEveryDays: '' }, before)).toEqual({ exchangeEveryDays: null })
  })
})
