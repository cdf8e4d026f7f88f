import { isCapped, isRemoved, newestTubeAt } from '../assessment/tube.ts'
import type { CheckInDrain } from '../domain/check-in.ts'
import { usualCourse } from '../domain/kinds.ts'
import type { Composed } from '../store/record.ts'

const RECENT_MS = 7 * 86_400_000

/** The drains that are in place, as the person who empties them needs them; advice is given by the same. */
export function checkInDrains({ record, drains }: Composed, now: Date): CheckInDrain[] {
  const nowMs = now.getTime()
  const corrected = new Set(record.reports.map(({ supersedes }) => supersedes))
  const recent = record.reports
    .filter(({ id, receivedAt }) => !corrected.has(id) && nowMs - Date.parse(receivedAt) <= RECENT_MS)
    .flatMap(({ readings = [] }) => readings)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))

  return record.drains.flatMap((drain): CheckInDrain[] => {
    const events = record.staffEvents.filter(
      (event) => event.drain === drain.id && Date.parse(event.at) <= nowMs,
    )
    const label = drains.find(({ id }) => id === drain.id)?.label
    if (label === undefined || isRemoved(events)) return []
    const tubeMs = Date.parse(newestTubeAt(events) ?? drain.placedAt)
    const { flush, dressingEveryHours } = drain.plan
    return [
      {
        id: drain.id,
        label,
        kind: drain.kind,
        course: drain.course ?? usualCourse[drain.kind],
        capped: isCapped(events, drain.cappedAt, nowMs),
        flush: flush ?? null,
        dressingEveryHours,
        bagCapacityMl: drain.bagCapacityMl ?? null,
        markMl: drain.markMl ?? null,
        recent: recent
          .filter((reading) => reading.drain === drain.id && Date.parse(reading.at) >= tubeMs)
          .map(({ at, volumeMl }) => ({ at, volumeMl })),
      },
    ]
  })
}
