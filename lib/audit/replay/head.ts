import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { clinicById } from '../../store/clinics.ts'
import { read } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'

export type ReplayHead = { clinic: { name: string; timeZone: string; demo: boolean }; asOf: string }

/** What stands above the page: the clinic and the time. */
export async function replayHead({ clinicId }: StaffMember, now: Date = clock()): Promise<ReplayHead> {
  const clinic = await read((tx) => clinicById(tx, clinicId))
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { name, timeZone, demo } = clinic
  return { clinic: { name, timeZone, demo }, asOf: stored(now) }
}
