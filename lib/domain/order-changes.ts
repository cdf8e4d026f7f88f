import { drainageLabels, thresholdLabels, vesselLabels } from './labels.ts'
import type { Overrides } from './record.ts'
import type { Vessel } from './vessel.ts'
import type { Course, Drainage } from './words.ts'

/** One version of a drain's orders, as far as it is compared with another. */
export type Ordered = {
  course: Course | null
  drainage: Drainage | null
  bagCapacityMl: number | null
  markMl: number | null
  vessel: Vessel | null
  logEveryHours: number
  dressingEveryHours: number
  flushVolumeMl: number | null
  flushEveryHours: number | null
  flushAt: readonly string[] | null
  exchangeEveryDays: number | null
  dressingType: string | null
  removalPlan: string | null
  overrides: Readonly<Partial<Record<keyof Overrides, { value: number }>>> | null
}

/** What a version says of each order, in words; null: it is not ordered. */
const lines: readonly [name: string, of: (orders: Ordered) => string | null][] = [
  ['course', ({ course }) => course],
  ['drainage', ({ drainage }) => (drainage ? drainageLabels[drainage].toLowerCase() : null)],
  ['collected in', ({ vessel }) => (vessel ? vesselLabels[vessel].toLowerCase() : null)],
  ['capacity', ({ bagCapacityMl }) => unit(bagCapacityMl, 'mL')],
  ['marks of the vessel', ({ markMl }) => unit(markMl, 'mL')],
  ['log', ({ logEveryHours }) => every(logEveryHours, 'h')],
  ['dressing', ({ dressingEveryHours }) => every(dressingEveryHours, 'h')],
  ['dressing of', ({ dressingType }) => dressingType],
  [
    'flush',
    ({ flushVolumeMl, flushEveryHours }) =>
      flushVolumeMl === null || flushEveryHours === null
        ? null
        : `${flushVolumeMl} mL every ${flushEveryHours} h`,
  ],
  ['flush at', ({ flushAt }) => flushAt?.join(', ') || null],
  ['exchange', ({ exchangeEveryDays }) => every(exchangeEveryDays, 'days')],
  ['removal plan', ({ removalPlan }) => removalPlan],
]

const unit = (value: number | null, name: string) => (value === null ? null : `${value} ${name}`)
const every = (value: number | null, name: string) => (value === null ? null : `every ${value} ${name}`)

/** What a version changed of the one before it, each in words, with what it was before. */
export function orderChanges(before: Ordered, after: Ordered): string[] {
  const orders = lines.flatMap(([name, of]) => said(name, of(before), of(after), 'none'))
  const names = Object.keys(thresholdLabels) as (keyof Overrides)[]
  const own = ({ overrides }: Ordered, name: keyof Overrides) => overrides?.[name]?.value.toString() ?? null
  const thresholds = names.flatMap((name) =>
    said(`${thresholdLabels[name]}:`, own(before, name), own(after, name), 'the clinic’s'),
  )
  return [...orders, ...thresholds]
}

const said = (name: string, before: string | null, after: string | null, none: string): string[] =>
  before === after ? [] : [`${name} ${after ?? none} (was ${before ?? none})`]
