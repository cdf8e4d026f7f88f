import type { Drain } from '@/lib/domain/record.ts'
import type { DrainKind } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from './number-text.ts'

/** The orders of one drain while they are filled in. An empty flush or exchange means that none is ordered. */
export type OrdersDraft = {
  logEveryHours: string
  dressingEveryHours: string
  flushMl: string
  flushEveryHours: string
  exchangeEveryDays: string
  bagCapacityMl: string
}

/** What is usual for a kind, as a start: local choices, each to be looked at and changed. Null: none. */
const usualOrders: Readonly<
  Record<
    DrainKind,
    { flush: [ml: number, hours: number] | null; exchangeDays: number | null; bagMl: number | null }
  >
> = {
  nephrostomy: { flush: null, exchangeDays: 90, bagMl: 600 },
  nephroureteral: { flush: null, exchangeDays: 90, bagMl: 600 },
  biliary: { flush: [10, 24], exchangeDays: 70, bagMl: 600 },
  cholecystostomy: { flush: [10, 24], exchangeDays: null, bagMl: 600 },
  collection: { flush: [10, 24], exchangeDays: null, bagMl: 600 },
  pleural: { flush: null, exchangeDays: null, bagMl: 1000 },
  bulb: { flush: null, exchangeDays: null, bagMl: 100 },
}
const LOG_HOURS = 24
const DRESSING_HOURS = 72

const text = (value: number | null | undefined) => (value == null ? '' : String(value))

export function usualDraft(kind: DrainKind): OrdersDraft {
  const { flush, exchangeDays, bagMl } = usualOrders[kind]
  return {
    logEveryHours: String(LOG_HOURS),
    dressingEveryHours: String(DRESSING_HOURS),
    flushMl: text(flush?.[0]),
    flushEveryHours: text(flush?.[1]),
    exchangeEveryDays: text(exchangeDays),
    bagCapacityMl: text(bagMl),
  }
}

/** The orders in force, to be changed. */
export const draftOfOrders = ({
  plan,
  bagCapacityMl,
}: Pick<Drain, 'plan' | 'bagCapacityMl'>): OrdersDraft => ({
  logEveryHours: String(plan.logEveryHours),
  dressingEveryHours: String(plan.dressingEveryHours),
  flushMl: text(plan.flush?.volumeMl),
  flushEveryHours: text(plan.flush?.everyHours),
  exchangeEveryDays: text(plan.exchangeEveryDays),
  bagCapacityMl: text(bagCapacityMl),
})

export type OrdersFaults = Partial<Record<keyof OrdersDraft, string>>

export function ordersFaults(draft: OrdersDraft): OrdersFaults {
  const faults: OrdersFaults = {}
  const need = (name: keyof OrdersDraft, low: number, high: number, unit: string, isNeeded: boolean) => {
    if (draft[name].trim() === '' ? isNeeded : !isWithin(draft[name], low, high))
      faults[name] = `From ${low} to ${high} ${unit}.`
  }
  const hasFlush = draft.flushMl.trim() !== '' || draft.flushEveryHours.trim() !== ''
  need('logEveryHours', 1, 8784, 'hours', true)
  need('dressingEveryHours', 1, 8784, 'hours', true)
  need('flushMl', 0, 1000, 'mL', hasFlush)
  need('flushEveryHours', 1, 8784, 'hours', hasFlush)
  need('exchangeEveryDays', 1, 3660, 'days', false)
  need('bagCapacityMl', 1, 100_000, 'mL', false)
  return faults
}

/** The orders as the doors take them. */
export function toOrders(draft: OrdersDraft) {
  const volumeMl = numberOf(draft.flushMl)
  const everyHours = numberOf(draft.flushEveryHours)
  return {
    bagCapacityMl: numberOf(draft.bagCapacityMl),
    plan: {
      logEveryHours: numberOf(draft.logEveryHours) ?? LOG_HOURS,
      dressingEveryHours: numberOf(draft.dressingEveryHours) ?? DRESSING_HOURS,
      flush: volumeMl === null || everyHours === null ? null : { volumeMl, everyHours },
      exchangeEveryDays: numberOf(draft.exchangeEveryDays),
    },
  }
}
