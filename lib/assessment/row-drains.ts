import type { Assessment } from '../domain/assessment.ts'
import { usualCourse } from '../domain/kinds.ts'
import type { PatientRecord } from '../domain/record.ts'
import type { RowDrain } from '../domain/worklist.ts'
import type { StoredDrain } from '../store/drains.ts'
import { isCapped, isRemoved, newestTubeAt } from './tube.ts'

/** Days of net output in the small picture of a row. */
const DAYS = 14

/** The drains that are in place, as a worklist row shows them. */
export function rowDrains(
  record: PatientRecord,
  assessment: Assessment,
  stored: readonly StoredDrain[],
): RowDrain[] {
  const at = Date.parse(assessment.asOf)
  return record.drains.flatMap((drain): RowDrain[] => {
    const kept = stored.find(({ id }) => id === drain.id)
    const events = record.staffEvents.filter(
      (event) => event.drain === drain.id && Date.parse(event.at) <= at,
    )
    if (!kept || isRemoved(events)) return []
    const output = assessment.drains.find((one) => one.drain === drain.id)
    return [
      {
        id: drain.id,
        label: kept.label,
        kind: drain.kind,
        side: drain.side ?? null,
        course: drain.course ?? usualCourse[drain.kind],
        capped: isCapped(events, drain.cappedAt, at),
        frenchSize: kept.frenchSize,
        placedAt: newestTubeAt(events) ?? drain.placedAt,
        baselineMlPerDay: output?.baselineMlPerDay ?? null,
        days: output?.days.slice(-DAYS) ?? [],
      },
    ]
  })
}
