import { z } from 'zod'
import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'

const Taken = z.strictObject({
  how: z.enum(['printed', 'copied'], { error: 'accepted: printed, copied' }),
})

/**
 * Notes that a call sheet is printed or copied: it leaves the house.
 * @throws Refusal invalid-input, not-found
 */
export async function noteCallSheetTaken(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date = clock(),
): Promise<{ noted: true }> {
  const parsed = Taken.safeParse(body)
  if (!parsed.success)
    throw new Refusal('invalid-input', 'The note is not as it is accepted.', faultsOf(parsed.error, body))
  await write(async (tx) => {
    await isOfClinic(tx, staff.clinicId, patientId)
    await recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'take-call-sheet',
      patientId,
      what: `${parsed.data.how} the call sheet`,
    })
  })
  return { noted: true }
}
