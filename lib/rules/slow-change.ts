import type { PatientRecord } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import type { SlowChange } from '../domain/slow-change.ts'
import { slowChart } from './findings/slow-decline.ts'
import { History } from './moment.ts'
import { prepare } from './series/prepare.ts'
import type { DrainView } from './series/view.ts'

const tenth = (value: number) => Math.round(value * 10) / 10

/**
 * The chart that output-decline reads for a slow fall, of each drain of a record, as a screen draws it: in mL a day
 * instead of in units of the drain's own spread.
 * @param now the instant, RFC 3339; what was received after it is not looked at
 */
export function slowChanges(record: PatientRecord, rules: RuleSet, now: string): SlowChange[] {
  const prepared = prepare(record, rules, Date.parse(now))
  return new History(prepared).view(prepared.known.length - 1).drains.map(slowChange)
}

function slowChange(drain: DrainView): SlowChange {
  const none = (why: string): SlowChange => ({ drain: drain.id, chart: null, why })
  if (drain.course !== 'steady') return none('This drain should dwindle: its slow fall is no signal.')
  if (drain.tube.cappedSince !== null) return none('The drain is capped.')
  const chart = slowChart(drain)
  if (!chart) {
    const { slowReferenceMinDays, slowMinDays } = drain.limits
    return none(
      `Too few whole days: ${drain.output.clean.length} of ${slowReferenceMinDays + slowMinDays}, or staff closed the fall lately.`,
    )
  }
  const { days, averages, lower, centreMl, sigmaMl } = chart
  const inMl = (z: number) => tenth(centreMl + z * sigmaMl)
  return {
    drain: drain.id,
    chart: {
      centreMl: tenth(centreMl),
      limitMl: inMl(lower),
      days: days.map(({ date }, i) => ({ date, averageMl: inMl(averages[i] as number) })),
    },
    why: null,
  }
}
