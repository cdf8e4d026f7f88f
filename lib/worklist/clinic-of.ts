import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import type { Worklist } from '../domain/worklist.ts'
import { clinicById } from '../store/clinics.ts'
import { snapshot } from '../store/index.ts'

/** The clinic of a member of staff, as the head of a page names it. */
export async function clinicOf({ clinicId }: StaffMember): Promise<Worklist['clinic']> {
  const clinic = await snapshot((tx) => clinicById(tx, clinicId))
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { id, name, timeZone, demo } = clinic
  return { id, name, timeZone, demo }
}
