import { describe, expect, it } from 'vitest'
import { OrderTemplate } from '../../lib/domain/order-template.ts'
import { standardOrders } from '../../lib/domain/standard-orders.ts'
import { Confidence, DrainKind } from '../../lib/domain/words.ts'

describe.each(DrainKind.options)('the standard orders of a %s', (kind) => {
  const { orders, sources } = standardOrders[kind]
  it('are orders', () => expect(OrderTemplate.parse(orders)).toEqual(orders))
  it('name the source of every value', () => {
    for (const [name, value] of Object.entries(orders)) {
      if (value === null && !['flush', 'exchangeEveryDays'].includes(name)) continue
      if (name === 'exchangeEveryDays' && value === null) continue
      const source = sources[name as keyof OrderTemplate]
      expect(source?.source, name).toBeTruthy()
      expect(Confidence.options).toContain(source?.confidence)
    }
  })
  it('flush at a time only what is flushed', () => {
    if (!orders.flush) expect(orders.flushAt).toBeNull()
  })
})
