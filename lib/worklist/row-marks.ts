import { FLUTTER_HOURS, FLUTTER_TIMES, flutters } from '../domain/flutter.ts'
import type { WorklistRow } from '../domain/worklist.ts'
import { restlessSteps } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { grouped, stored } from '../store/rows.ts'
import { nextTriesOf } from './next-tries.ts'

type Bare = Omit<WorklistRow, 'nextTry'>

/** Rows with what needs more than their flags: what is to be tried next, and which flags flutter. */
export async function withMarks(
  tx: Tx,
  clinicId: string,
  rows: readonly Bare[],
  now: Date,
): Promise<WorklistRow[]> {
  const nextTries = await nextTriesOf(tx, clinicId, rows, now)
  const fluttering = await flutteringOf(tx, clinicId, now)
  return rows.map((row) => ({
    ...row,
    flags: row.flags.map((flag) => (fluttering.has(flag.id) ? { ...flag, flutters: true } : flag)),
    nextTry: nextTries.get(row.patientId) ?? null,
  }))
}

/** The flags, standing or not, that have fluttered within the latest 72 h. */
async function flutteringOf(tx: Tx, clinicId: string, now: Date): Promise<Set<string>> {
  const hoursAgo = (hours: number) => stored(new Date(now.getTime() - hours * 3_600_000))
  const { rows: steps } = await restlessSteps(tx, clinicId, hoursAgo(2 * FLUTTER_HOURS), FLUTTER_TIMES)
  const late = hoursAgo(FLUTTER_HOURS)
  const ids = [...grouped(steps, ({ patientId }) => patientId).values()].flatMap((own) => {
    const flags = own.map(({ flagId, code, drain }) => ({ id: flagId, code, drain }))
    return flutters(flags, own)
      .filter(({ until }) => until > late)
      .flatMap(({ flagIds }) => flagIds)
  })
  return new Set(ids)
}
