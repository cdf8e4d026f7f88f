import { urgencyRank } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

type Row = Pick<WorklistRow, 'patientId' | 'urgency'>

/**
 * The rows as they stay on screen while somebody reads: each in the place that it had when the list was settled,
 * also one that has left meanwhile. Only what has become at-once comes in, or moves, to the place that the server
 * gives it: above the first row that follows it there.
 */
export function absorb<R extends Row>(settled: readonly R[], fresh: readonly R[]): readonly R[] {
  const was = new Map(settled.map((row) => [row.patientId, row.urgency]))
  const coming = fresh.filter(
    ({ patientId, urgency }) => urgency === 'at-once' && was.get(patientId) !== 'at-once',
  )
  if (coming.length === 0) return settled
  const place = new Map(fresh.map(({ patientId }, i) => [patientId, i]))
  const moving = new Set(coming.map(({ patientId }) => patientId))
  const rows = settled.filter(({ patientId }) => !moving.has(patientId))
  for (const row of coming) {
    const own = place.get(row.patientId) ?? 0
    const next = rows.findIndex(({ patientId }) => (place.get(patientId) ?? -1) > own)
    rows.splice(next < 0 ? rows.length : next, 0, row)
  }
  return rows
}

/** The rows that are new, or more urgent, since the list was settled: they wait to be asked for. */
export function waitingOf<R extends Row>(settled: readonly R[], fresh: readonly R[]): R[] {
  const was = new Map(settled.map((row) => [row.patientId, urgencyRank[row.urgency]]))
  return fresh.filter(({ patientId, urgency }) => urgencyRank[urgency] > (was.get(patientId) ?? -1))
}

/** The names of those who were not at-once before and are now. */
export function newAtOnce(
  before: readonly Row[],
  after: readonly Pick<WorklistRow, 'patientId' | 'urgency' | 'name'>[],
): string[] {
  const was = new Set(before.filter(({ urgency }) => urgency === 'at-once').map(({ patientId }) => patientId))
  return after
    .filter(({ patientId, urgency }) => urgency === 'at-once' && !was.has(patientId))
    .map(({ name }) => name)
}
