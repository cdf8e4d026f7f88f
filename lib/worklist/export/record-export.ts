import { recordAccess } from '../../access/record.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { write } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'

/** Enters into the access record that something of a patient left the house: who took what. */
export const recordExport = (staff: StaffMember, patientId: string, what: string, now: Date): Promise<void> =>
  write((tx) =>
    recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'export-patient',
      patientId,
      what,
    }),
  )
