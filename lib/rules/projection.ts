import type { DrainOutput } from '../domain/assessment.ts'
import { removalLimit } from './findings/removal-check.ts'
import { dateAt } from './series/days.ts'
import type { DrainView } from './series/view.ts'
import { theilSen } from './statistics/theil-sen.ts'

const DAY_MS = 86_400_000
const METHOD = 'Theil–Sen line through the logarithm of the latest whole days, 95% interval of its slope'

/**
 * When will a drain that dwindles bring little enough to be looked at for removal?
 *
 * Method: Theil–Sen on ln(net mL) of up to 14 latest whole days; the day on which the line, and the lines with
 * the ends of the slope's 95% interval through the same middle point, reach the removal threshold.
 * Assumptions: output dwindles by a share a day. Refused (null) with fewer than 5 days, a day of zero or less,
 * a slope whose interval does not lie below zero, or a date more than 60 days ahead: the data cannot carry it.
 * Pleural drains have a threshold per reading, not per day: none is projected.
 */
export function projectRemoval(drain: DrainView): DrainOutput['projection'] {
  const limit = removalLimit(drain)
  if (!limit || drain.facts.kind === 'pleural' || drain.tube.cappedSince !== null) return null
  const { limits, output, view } = drain
  const days = output.clean.slice(-limits.projectionDays)
  if (days.length < limits.projectionMinDays || days.some((day) => day.netMl <= 0)) return null
  const origin = (days[0] as (typeof days)[number]).start
  const points = days.map((day) => ({ x: Math.round((day.start - origin) / DAY_MS), y: Math.log(day.netMl) }))
  const line = theilSen(points)
  if (!line.enough || !(line.high < 0)) return null
  const last = points.at(-1) as (typeof points)[number]
  const target = Math.log(limits[limit.name])
  const middle = points.map((p) => p.x).sort((a, b) => a - b)
  const x0 = ((middle[(middle.length - 1) >> 1] as number) + (middle[middle.length >> 1] as number)) / 2
  const y0 = line.intercept + line.slope * x0
  /** First whole day on which the line is under the threshold, and the days that must follow it. */
  const meets = (slope: number) =>
    Math.max(last.x + 1, Math.ceil(x0 + (target - y0) / slope)) + limits[limit.countName] - 1
  const at = meets(line.slope)
  if (line.intercept + line.slope * last.x <= target || at - last.x > limits.projectionMostDays) return null
  const date = (x: number) => dateAt(view.record.zone, origin, x)
  const latest = meets(line.high)
  return {
    date: date(at),
    earliest: date(Number.isFinite(line.low) ? meets(line.low) : last.x + 1),
    latest: latest - last.x > limits.projectionMostDays ? null : date(latest),
    method: METHOD,
  }
}
