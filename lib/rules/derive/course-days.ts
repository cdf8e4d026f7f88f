import { daysBetween } from '../../domain/local-time.ts'
import { isClean } from '../series/baseline.ts'
import { dayOf } from '../series/days.ts'
import { isComplete } from '../series/output.ts'
import { spreadOverDays } from '../series/spread.ts'
import type { Stretch } from '../series/stretches.ts'
import type { DrainView } from '../series/view.ts'

/** A day of a drain by its age: 0 is the local day of placement. */
export type AgedDay = { day: number; netMl: number }

/**
 * The days by which a drain counts in the usual course of its kind: complete ones, over every tube that it had, that
 * no stretch touches whose day or volume is in doubt. A capped drain is meant to bring nothing: its days say nothing of the kind.
 */
export function courseDays(drain: DrainView): AgedDay[] {
  const { zone } = drain.view.record
  const { all, suspect } = drain.output
  const placed = dayOf(zone, drain.facts.placedAt).date
  const isCapped = cappedIn(drain)
  return spreadOverDays(zone, all)
    .filter(
      (day) =>
        isComplete(day, drain.limits) &&
        isClean(day, all, suspect) &&
        !day.from.some((i) => (all[i] as Stretch).overfull) &&
        !isCapped(day),
    )
    .map(({ date, netMl }) => ({ day: daysBetween(placed, date), netMl }))
}

/** Tells of a span of time whether the drain was capped in any of it. */
function cappedIn({ facts, view }: DrainView) {
  const steps = [
    ...(facts.cappedAt === null ? [] : [{ at: facts.cappedAt, on: true }]),
    ...view.events
      .filter(({ drain, type }) => drain === facts.id && (type === 'capped' || type === 'uncapped'))
      .map(({ at, type }) => ({ at, on: type === 'capped' })),
  ].sort((a, b) => a.at - b.at)
  return ({ start, end }: { start: number; end: number }) =>
    steps.some(
      ({ at, on }, i) =>
        on &&
        at < end &&
        (steps.slice(i + 1).find((later) => !later.on)?.at ?? Number.POSITIVE_INFINITY) > start,
    )
}
