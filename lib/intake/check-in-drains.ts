import { isCapped, isRemoved, newestTubeAt } from '../assessment/tube.ts'
import type { CheckInDrain } from '../domain/check-in.ts'
import { usualCourse } from '../domain/kinds.ts'
import { standingReports } from '../domain/standing-reports.ts'
import { plansOf } from '../store/care-plans.ts'
import type { Tx } from '../store/index.ts'
import type { Composed } from '../store/record.ts'
import { stored } from '../store/rows.ts'

const RECENT_MS = 7 * 86_400_000

/** The drains that are in place, as advice is given on them. */
type InPlace = Omit<CheckInDrain, 'vessel'>

/** The drains that are in place, with what was measured of each. */
export function drainsInPlace({ record, drains }: Composed, now: Date): InPlace[] {
  const nowMs = now.getTime()
  const measured = standingReports(record.reports)
    .flatMap(({ receivedAt, readings = [] }) => readings.map((reading) => ({ ...reading, receivedAt })))
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))

  return record.drains.flatMap((drain): InPlace[] => {
    const events = record.staffEvents.filter(
      (event) => event.drain === drain.id && Date.parse(event.at) <= nowMs,
    )
    const label = drains.find(({ id }) => id === drain.id)?.label
    if (label === undefined || isRemoved(events)) return []
    const placedAt = newestTubeAt(events) ?? drain.placedAt
    const mine = measured.filter((reading) => reading.drain === drain.id)
    const { flush, dressingEveryHours } = drain.plan
    return [
      {
        id: drain.id,
        label,
        kind: drain.kind,
        side: drain.side ?? null,
        course: drain.course ?? usualCourse[drain.kind],
        capped: isCapped(events, drain.cappedAt, nowMs),
        placedAt,
        usualAppearance: drain.usualAppearance ?? null,
        flush: flush ?? null,
        dressingEveryHours,
        bagCapacityMl: drain.bagCapacityMl ?? null,
        markMl: drain.markMl ?? null,
        readings: mine.filter(({ volumeMl }) => volumeMl !== null).length,
        recent: mine
          .filter(({ at, receivedAt }) => isRecent(at, receivedAt, placedAt, nowMs))
          .map(({ at, volumeMl }) => ({ at, volumeMl })),
      },
    ]
  })
}

/** Sent in the last seven days, of this tube. */
const isRecent = (at: string, receivedAt: string, placedAt: string, nowMs: number) =>
  nowMs - Date.parse(receivedAt) <= RECENT_MS && Date.parse(at) >= Date.parse(placedAt)

/** The same with what each drains into, as the person who empties them needs it. */
export async function checkInDrains(tx: Tx, composed: Composed, now: Date): Promise<CheckInDrain[]> {
  const { rows } = await plansOf(tx, composed.patient.id, stored(now))
  const plans = new Map(rows.map((plan) => [plan.drainId, plan]))
  return drainsInPlace(composed, now).map((drain) => ({
    ...drain,
    vessel: plans.get(drain.id)?.vessel ?? null,
  }))
}
