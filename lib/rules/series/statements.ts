import type { General } from '../../domain/words.ts'
import type { Stated } from './prepare.ts'
import type { View } from './view.ts'

const HOUR_MS = 3_600_000

/**
 * Statements that count now: those in the newest statement on the question, and for some hours after
 * any statement (from the later of its time and its receipt). So silence does not cure.
 */
export interface Counting<T> {
  /** All that count, newest first. */
  list: Stated<T>[]
  /** The one that counts longest, or null: what a finding tells. */
  lead: Stated<T> | null
  /** Instant at which the last of them stops counting; infinite while the newest statement says it. */
  until: number
  /** Instant at which the first of them stops counting. */
  next: number
}

export function counting<T>(
  view: View,
  list: readonly Stated<T>[],
  holds: (value: T, s: Stated<T>) => boolean,
  at: number,
  hours: number,
): Counting<T> {
  const found: Counting<T> = {
    list: [],
    lead: null,
    until: Number.NEGATIVE_INFINITY,
    next: Number.POSITIVE_INFINITY,
  }
  const seen = view.seen(list)
  for (let i = seen.length - 1; i >= 0; i--) {
    const s = seen[i] as Stated<T>
    if (!holds(s.value, s)) continue
    const newest = i === seen.length - 1
    const end = newest ? Number.POSITIVE_INFINITY : Math.max(s.at, s.receivedAt) + hours * HOUR_MS
    if (end <= at) continue
    found.list.push(s)
    if (end > found.until) {
      found.until = end
      found.lead = s
    }
    found.next = Math.min(found.next, end)
  }
  return found
}

export const fevers = (view: View, at: number, feverC: number, hours = view.record.limits.symptomHoldHours) =>
  counting(view, view.record.temperatures, (t) => t >= feverC, at, hours)

export const chills = (view: View, at: number, hours = view.record.limits.symptomHoldHours) =>
  counting(view, view.record.chills, (yes) => yes, at, hours)

/** Statements that name one of the given symptoms. Whether the person usually has it is for the rule to ask. */
export const generals = (view: View, at: number, symptoms: readonly General[]) =>
  counting(
    view,
    view.record.generals,
    (list) => list.some((g) => symptoms.includes(g)),
    at,
    view.record.limits.symptomHoldHours,
  )

/** The most cautious (lowest) value of a limit among the drains that are in; the rule set's own where none is. */
export function lowestLimit(view: View, name: 'feverC' | 'severePain'): number {
  const own = view.active.map((drain) => drain.limits[name])
  return own.length > 0 ? Math.min(...own) : view.record.limits[name]
}
