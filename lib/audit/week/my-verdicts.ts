import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { findingLabels } from '../../domain/labels.ts'
import type { StaffMember } from '../../domain/staff.ts'
import type { CallVerdict } from '../../domain/week-page.ts'
import { verdictsOfFlags } from '../../store/flag-verdicts.ts'
import { snapshot, write } from '../../store/index.ts'
import { itemsCalledBy } from '../../store/reviews.ts'
import { stored } from '../../store/rows.ts'

/** How far back calls are looked at, in days. */
const DAYS = 120

/** What the audit said of the flags for which whoever asks has called, the latest first. The view stands in the access record. */
export async function verdictsOnMyCalls(staff: StaffMember, now: Date = clock()): Promise<CallVerdict[]> {
  const { clinicId, id } = staff
  const from = stored(new Date(now.getTime() - DAYS * 86_400_000))
  const found = await snapshot(async (tx): Promise<CallVerdict[]> => {
    const { rows } = await itemsCalledBy(tx, clinicId, id, from)
    const ids = rows.map(({ flagId }) => flagId)
    const verdicts = new Map((await verdictsOfFlags(tx, clinicId, ids)).map((one) => [one.flagId, one]))
    return rows.flatMap(({ flagId, code, openedAt, patientId, name, birthDate, recordNumber }) => {
      const verdict = verdicts.get(flagId)
      return verdict
        ? [{ ...verdict, flag: findingLabels[code], openedAt, patientId, name, birthDate, recordNumber }]
        : []
    })
  })
  if (found.length > 0)
    await write((tx) =>
      recordAccess(tx, {
        clinicId,
        at: stored(now),
        staffId: id,
        actor: staff.name,
        action: 'read-verdicts',
        patientId: null,
        what: `read the verdicts on own calls: ${[...new Set(found.map(({ patientId }) => patientId))].join(' ')}`,
      }),
    )
  return found
}
