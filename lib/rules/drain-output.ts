import type { Day, DrainOutput } from '../domain/assessment.ts'
import { atLeast } from './compare.ts'
import { removalLimit, tooCoarseToTell } from './findings/removal-check.ts'
import { projectRemoval } from './projection.ts'
import { dayStart, daysBetween } from './series/days.ts'
import { spreadOverDays } from './series/spread.ts'
import type { Stretch } from './series/stretches.ts'
import type { DrainView } from './series/view.ts'

/** Without the noise of the last bits of a sum; a billionth of a mL is nothing that anybody measured. */
const tidy = (value: number) => Math.round(value * 1e9) / 1e9

/** What the rules worked out of one drain's readings: its days, its baseline, and what cannot be told. */
export function drainOutput(drain: DrainView, at: number): DrainOutput {
  const { output, limits, view } = drain
  const { baseline } = output
  const cannotTell: string[] = []
  if (baseline.from === 'unknown')
    cannotTell.push(`Baseline not known yet: ${baseline.days} of ${limits.baselineMinDays} days.`)
  const removal = removalLimit(drain)
  if (removal && tooCoarseToTell(drain))
    cannotTell.push(
      `Whether less than ${limits[removal.name]} mL comes cannot be told with this vessel: its smallest mark is ${drain.facts.markMl} mL.`,
    )
  return {
    drain: drain.id,
    baselineMlPerDay: baseline.mlPerDay === null ? null : tidy(baseline.mlPerDay),
    baselineFrom: baseline.from,
    baselineDays: baseline.days,
    days: localDays(drain, view.record.zone, at),
    cannotTell,
    projection: projectRemoval(drain),
  }
}

/** Local days from the first covered one to that of the instant, over every tube that the drain had. */
function localDays(drain: DrainView, zone: string, at: number): Day[] {
  const { all, own, days } = drain.output
  const covered = all.length === own.length ? days : spreadOverDays(zone, all)
  const full = all.map((stretch) => filledItsBag(drain, stretch))
  const list = covered.map(
    (day): Day => ({
      date: day.date,
      netMl: day.coverage > 0 ? tidy(day.netMl) : null,
      coverage: tidy(Math.min(1, day.coverage)),
      hours: day.hours,
      ...(day.from.some((i) => full[i]) ? { atLeast: true } : {}),
    }),
  )
  return daysUntil(list, zone, at)
}

/**
 * Days that end with the last known one, and those that followed up to an instant, of which nothing is known: all that
 * time alone adds to the days of a drain.
 */
export function daysUntil(days: readonly Day[], zone: string, at: number): Day[] {
  const last = days.at(-1)
  const since = last ? daysBetween(zone, dayStart(zone, last.date), at).slice(1) : []
  return [
    ...days,
    ...since.map(({ date, start, end }) => ({
      date,
      netMl: null,
      coverage: 0,
      hours: (end - start) / 3_600_000,
    })),
  ]
}

/** Whether a reading of a stretch is as much as its bag holds, or more, and no total: what ran over was not measured. */
export const filledItsBag = (
  { facts: { bagCapacityMl } }: DrainView,
  { readings }: Pick<Stretch, 'readings'>,
): boolean =>
  bagCapacityMl !== null &&
  readings.some(
    ({ value: { total, volumeMl } }) => !total && volumeMl !== null && atLeast(volumeMl, bagCapacityMl),
  )
