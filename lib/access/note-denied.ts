import { now } from '../clock.ts'
import type { StaffMember } from '../domain/staff.ts'
import { write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { recordAccess } from './record.ts'

/** Enters in the access record that a member of staff was refused what their role may not do. */
export async function noteDenied(staff: StaffMember, action: string, where: string): Promise<void> {
  const { id, clinicId, name, role } = staff
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now()),
      staffId: id,
      actor: name,
      role,
      action: 'denied',
      patientId: null,
      what: `was refused ${action} at ${where.slice(0, 200)}`,
    }),
  )
}
