import { baselineOf, isClean } from './baseline.ts'
import { isComplete, type Output } from './output.ts'
import { addShare, type DayOutput } from './spread.ts'
import type { Stretch } from './stretches.ts'
import type { DrainView } from './view.ts'

/*
 * A finding's `since` is found by looking at earlier and earlier views. Where reports came in the order of
 * what they tell, an earlier view of a drain is the latest one cut short, and nothing needs to be added up again.
 */

/**
 * Whether what was worked out for the latest view holds for an earlier one up to its last reading: the same
 * tube, the same closings, no corrections, and everything received in the order of its times.
 */
export const sharesHistory = (earlier: DrainView, latest: DrainView): boolean =>
  earlier.facts.inStep &&
  !earlier.view.record.corrected &&
  earlier.tube.start === latest.tube.start &&
  earlier.closedAt('output-decline') === latest.closedAt('output-decline')

/** The latest output, cut short after the readings that the view knows. */
export function outputUpTo(drain: DrainView, latest: Output): Output {
  const { cut } = drain.view
  const knows = (stretch: Stretch) => stretch.readings.every((reading) => reading.receivedAt <= cut)
  let count = latest.own.length
  while (count > 0 && !knows(latest.own[count - 1] as Stretch)) count--
  const own = latest.own.slice(0, count)
  const until = own.at(-1)?.end ?? Number.NEGATIVE_INFINITY
  const last24 = count > 0 ? latest.last24At(count - 1) : null
  let days: DayOutput[] | undefined
  return {
    own,
    suspect: latest.suspect,
    last24,
    last24At: latest.last24At,
    baseline: last24?.baseline ?? baselineOf([], drain),
    get all() {
      return latest.all.filter(knows)
    },
    get days() {
      days ??= cutShort(latest.days, own, until)
      return days
    },
    get complete() {
      return this.days.filter((day) => isComplete(day, drain.limits))
    },
    get clean() {
      return this.complete.filter((day) => isClean(day, own, latest.suspect))
    },
    get suspicions() {
      return latest.suspicions.filter(({ stretch }) => stretch.end <= until)
    },
  }
}

/** The days up to an instant; the day that holds it is added up anew from the stretches before it. */
function cutShort(days: readonly DayOutput[], own: readonly Stretch[], until: number): DayOutput[] {
  const short: DayOutput[] = []
  for (const day of days) {
    if (day.start >= until) break
    if (day.end <= until) short.push(day)
    else {
      const part: DayOutput = { ...day, netMl: 0, coverage: 0, from: [] }
      for (const i of day.from) if (i < own.length) addShare(part, own[i] as Stretch, i)
      short.push(part)
    }
  }
  return short
}
