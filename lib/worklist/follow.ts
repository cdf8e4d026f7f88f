import type { StaffMember } from '../domain/staff.ts'
import { type Change, listen } from '../notify/bus.ts'

/** Calls `hear` on each change among the patients whom a member of staff may see, until what it returns is called. */
export const followWorklist = (staff: StaffMember, hear: (change: Change) => void): (() => void) =>
  listen(staff.clinicId, hear)
