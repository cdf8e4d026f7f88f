import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type FoundPatient, Wanted } from '../domain/found-patient.ts'
import type { StaffMember } from '../domain/staff.ts'
import { patientsWith } from '../store/find-patients.ts'
import { snapshot, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'

/** Most that are shown: whoever looks for somebody has more to say of them. */
const MOST = 20
/** Most that the first word may bring before the others narrow it down. */
const MOST_BY_WORD = 500

/**
 * Patients by words of their name or record number: for whoever calls and has nothing flagged, or whose follow-up
 * was ended, perhaps by mistake. Whom the answer names stands in the access record.
 * @throws ZodError where nothing sensible is looked for
 */
export async function findPatients(
  staff: StaffMember,
  body: unknown,
  now: Date = clock(),
): Promise<FoundPatient[]> {
  const words = Wanted.parse(body).find.split(/\s+/)
  const longest = words.toSorted((a, b) => b.length - a.length)[0] ?? ''
  const { rows } = await snapshot((tx) => patientsWith(tx, staff.clinicId, longest, MOST_BY_WORD))
  const found = rows
    .filter(({ name, recordNumber }) =>
      words.every((word) => `${name} ${recordNumber}`.toLowerCase().includes(word.toLowerCase())),
    )
    .slice(0, MOST)
  if (found.length > 0)
    await write((tx) =>
      recordAccess(tx, {
        clinicId: staff.clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        action: 'find-patients',
        patientId: null,
        what: `found by search: ${found.map(({ patientId }) => patientId).join(' ')}`,
      }),
    )
  return found
}
