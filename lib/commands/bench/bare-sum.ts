import type { PatientRecord } from '../../domain/record.ts'
import { dayOf } from '../../rules/series/days.ts'

/**
 * The least that any assessment must do: parse every instant of a record and sum what was emptied, less what was
 * flushed, by local day. It asks for a day only where an instant leaves the one before.
 */
export function bareSum(record: PatientRecord): Map<string, number> {
  const sums = new Map<string, number>()
  let day = dayOf(record.timeZone, Date.parse(record.enrolledAt))
  const add = (at: string, ml: number | null | undefined) => {
    const instant = Date.parse(at)
    if (instant < day.start || instant >= day.end) day = dayOf(record.timeZone, instant)
    sums.set(day.date, (sums.get(day.date) ?? 0) + (ml ?? 0))
  }
  let parsed = 0
  for (const report of record.reports) {
    parsed += Date.parse(report.receivedAt)
    for (const reading of report.readings ?? []) add(reading.at, reading.volumeMl)
    for (const flush of report.flushes ?? []) add(flush.at, -(flush.volumeMl ?? 0))
    for (const dressing of report.dressings ?? []) parsed += Date.parse(dressing.at)
    if (report.symptoms) parsed += Date.parse(report.symptoms.at)
  }
  if (Number.isNaN(parsed)) throw new RangeError('an instant of the record is not one')
  return sums
}
