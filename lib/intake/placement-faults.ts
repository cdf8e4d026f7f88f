import { eventLabels } from '../domain/labels.ts'
import { dateAndTime } from '../domain/local-time.ts'
import type { Fault } from '../domain/problem.ts'
import { type FirstSaid, firstSaidOf, type StoredDrain } from '../store/drains.ts'
import type { Tx } from '../store/index.ts'
import { outsideEventsOf } from '../store/outside-events.ts'
import { stored } from '../store/rows.ts'
import type { StoredStaffEvent } from '../store/staff-events.ts'
import { bookedFor, visitStepsOf } from '../store/visits.ts'

const MINUTE_MS = 60_000

const saidLabels: Readonly<Record<FirstSaid['what'], string>> = {
  reading: 'a reading',
  flush: 'a flush',
  dressing: 'a dressing change',
  symptoms: 'what was said of its site',
}

/** Something that is known of a drain, and the latest that it can have been placed for that still to count. */
type Known = { what: string; atMs: number; latestMs: number }

/**
 * Why a drain cannot have been placed at a time to which its placement is to be corrected. Not before its time has come, as when it is
 * added; and not after anything that is known of it: the rules leave out what was before a placement, and so would hide it.
 * Earlier than it stands now is always accepted.
 * @param events what staff recorded of this drain and did not withdraw
 */
export async function placementFaults(
  tx: Tx,
  { patientId, zone, now }: { patientId: string; zone: string; now: Date },
  drain: StoredDrain,
  placedAt: string,
  events: readonly StoredStaffEvent[],
): Promise<Fault[]> {
  const [beforeMs, afterMs] = [Date.parse(drain.placedAt), Date.parse(placedAt)]
  if (afterMs <= beforeMs) return []
  const fault = (message: string) => [{ field: 'placedAt', value: placedAt, message }]
  if (afterMs > now.getTime()) return fault('accepted: a time that has come')
  const known = await knownOf(tx, patientId, drain, events, now)
  const [first] = known.toSorted((a, b) => a.latestMs - b.latestMs)
  if (!first || afterMs <= first.latestMs) return []
  return fault(
    `accepted: up to ${dateAndTime(first.latestMs, zone)}, since ${first.what} is on record of ${dateAndTime(first.atMs, zone)}`,
  )
}

/** What is known of a drain since its placement as it stands. To the minute: a form tells no seconds. */
async function knownOf(
  tx: Tx,
  patientId: string,
  drain: StoredDrain,
  events: readonly StoredStaffEvent[],
  now: Date,
): Promise<Known[]> {
  const fromMs = Date.parse(drain.placedAt) - MINUTE_MS
  const said = await firstSaidOf(tx, patientId, drain.id, stored(new Date(fromMs)))
  const { rows: outside } = await outsideEventsOf(tx, patientId)
  const { rows: visits } = await visitStepsOf(tx, patientId, stored(now))
  const known = (what: string, at: string, apartMs = 0): Known => ({
    what,
    atMs: Date.parse(at),
    latestMs: Date.parse(at) - apartMs,
  })
  return [
    // A reading at the very instant of the placement covers no time, and would enter no sum.
    ...(said ? [known(saidLabels[said.what], said.at, MINUTE_MS)] : []),
    // A closed flag says nothing of the tube.
    ...events
      .filter(({ type }) => type !== 'flag-closed')
      .map(({ type, at }) => known(`‘${eventLabels[type].toLowerCase()}’`, at)),
    ...(drain.cappedAt === null ? [] : [known('its capping', drain.cappedAt)]),
    // A booking that no tube answered is owed only while it is later than the tube.
    ...(['exchange', 'removal'] as const).flatMap((kind) => {
      const at = bookedFor(visits, drain.id, kind)
      return at === null ? [] : [known(`a booked ${kind}`, at, MINUTE_MS)]
    }),
    ...outside
      .filter((event) => event.drain === drain.id && event.withdrawnAt === null)
      .map(({ at }) => known('an outside event', at)),
  ].filter(({ atMs }) => atMs >= fromMs)
}
