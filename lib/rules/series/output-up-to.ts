import { baselineOf, isClean } from './baseline.ts'
import { isComplete, type Last24, type Output } from './output.ts'
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

/** The latest output, cut short after the readings that the view knows; what no rule asks for is not worked out. */
export function outputUpTo(drain: DrainView, latest: Output): Output {
  const { cut } = drain.view
  let count = latest.count
  while (count > 0 && receiptOf(latest.own[count - 1] as Stretch) > cut) count--
  return new ShortOutput(drain, latest, count)
}

/** Readings that make one stretch were received together, or the history would not be shared. */
const receiptOf = (stretch: Stretch) => (stretch.readings[0] as Stretch['readings'][number]).receivedAt

class ShortOutput implements Output {
  readonly last24: Last24 | null
  private shortOwn: Stretch[] | undefined
  private shortDays: DayOutput[] | undefined
  private shortComplete: DayOutput[] | undefined
  private shortClean: DayOutput[] | undefined

  constructor(
    private readonly drain: DrainView,
    private readonly latest: Output,
    readonly count: number,
  ) {
    this.last24 = count > 0 ? latest.last24At(count - 1) : null
  }

  get all() {
    return this.latest.all.filter((stretch) => receiptOf(stretch) <= this.drain.view.cut)
  }
  get own() {
    this.shortOwn ??= this.latest.own.slice(0, this.count)
    return this.shortOwn
  }
  get days() {
    this.shortDays ??= cutShort(this.latest.days, this.own, this.until)
    return this.shortDays
  }
  get complete() {
    this.shortComplete ??= this.days.filter((day) => isComplete(day, this.drain.limits))
    return this.shortComplete
  }
  get clean() {
    const { own, suspect } = this.latest
    this.shortClean ??= this.complete.filter((day) => isClean(day, own, suspect))
    return this.shortClean
  }
  get suspect() {
    return this.latest.suspect
  }
  get suspicions() {
    return this.latest.suspicions.filter(({ stretch }) => stretch.end <= this.until)
  }
  get baseline() {
    return this.last24?.baseline ?? baselineOf([], this.drain)
  }
  last24At(i: number) {
    return this.latest.last24At(i)
  }
  private get until() {
    return this.last24?.end ?? Number.NEGATIVE_INFINITY
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
