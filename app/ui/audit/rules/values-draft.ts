import type { NamedThreshold } from '@/lib/domain/rule-draft.ts'
import { numberOf } from '../../parts/number-text.ts'

/** What is typed beside each threshold; an empty text leaves the value as it is. */
export type ValuesDraft = Readonly<Record<string, string>>

/** The values that differ from those of the set that stands. */
export const wantedOf = (draft: ValuesDraft, thresholds: readonly NamedThreshold[]): Record<string, number> =>
  Object.fromEntries(
    thresholds.flatMap(({ name, value }) => {
      const typed = numberOf(draft[name] ?? '')
      return typed === null || Number.isNaN(typed) || typed === value ? [] : [[name, typed]]
    }),
  )

export const rangeText = ({ min, max, unit }: NamedThreshold): string =>
  `${min} to ${max}${unit === '' ? '' : ` ${unit}`}`

/** What is wrong with a typed value: the range, and where the shipped value comes from. */
export function faultOfValue(text: string, threshold: NamedThreshold): string | null {
  const value = numberOf(text)
  if (value === null) return null
  if (Number.isNaN(value)) return 'Write a number.'
  const { min, max, source } = threshold
  return value >= min && value <= max ? null : `From ${rangeText(threshold)}. Source: ${source}`
}
