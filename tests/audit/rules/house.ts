import type { StaffMember } from '../../../lib/domain/staff.ts'
import { write } from '../../../lib/store/index.ts'
import { at, CLINIC } from '../../store/clinic.ts'

const physician = (id: string, name: string, clinicId = CLINIC): StaffMember =>
  Object.freeze({ id, clinicId, name, email: `${id}@larkfield.example`, role: 'physician' })

export const ada = physician('doc-ada', 'Dr Ada (invented)')
export const ben = physician('doc-ben', 'Dr Ben (invented)')
export const cara = physician('doc-cara', 'Dr Cara (invented)')
export const elsewhere = physician('doc-else', 'Dr Elsewhere (invented)', 'clinic-elsewhere')

/** Puts physicians into the house of tests/store/clinic.ts. */
export const employ = (...physicians: readonly StaffMember[]): Promise<void> =>
  write(async (tx) => {
    for (const { id, clinicId, name, email, role } of physicians)
      await tx.staff.create({ data: { id, clinicId, name, email, role, createdAt: at(0), updatedAt: at(0) } })
  })
