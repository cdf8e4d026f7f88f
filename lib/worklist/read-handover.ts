import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import type { HandoverPage, HandoverSheet } from '../domain/handover.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { handoverById, handoversOf } from '../store/handovers.ts'
import { snapshot, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { composeSheet } from './handover-sheet.ts'
import { noteWorklistSeen } from './seen.ts'

/** Earlier handovers that are listed: about two months of two shifts a day. */
const EARLIER = 120

/** The page for the next shift as it stands, and the handovers before it. */
export async function readHandover(staff: StaffMember, now: Date = clock()): Promise<HandoverPage> {
  const page = await snapshot(async (tx): Promise<HandoverPage> => {
    const sheet = await composeSheet(tx, staff.clinicId, now)
    const earlier = await handoversOf(tx, staff.clinicId, EARLIER)
    return {
      sheet: { ...sheet, unreadable: [...sheet.unreadable, ...earlier.unreadable] },
      earlier: earlier.rows,
    }
  })
  await noteWorklistSeen(staff, shownIn(page.sheet), now)
  return page
}

/**
 * One handover: as it was signed, or, while it is open, as it stands. Who opens or prints it stands in the access record.
 * @throws Refusal not-found
 */
export async function readOneHandover(
  staff: StaffMember,
  id: string,
  how: 'view' | 'print',
  now: Date = clock(),
): Promise<HandoverSheet> {
  const { clinicId } = staff
  const sheet = await snapshot(async (tx) => {
    const kept = await handoverById(tx, clinicId, id)
    if (!kept || kept.withdrawnAt !== null) throw new Refusal('not-found', 'There is no such handover.')
    return kept.body ?? composeSheet(tx, clinicId, now)
  })
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: how === 'print' ? 'print-handover' : 'view-handover',
      patientId: null,
      what: `${how === 'print' ? 'printed' : 'opened'} a handover (${id}): ${shownIn(sheet).join(' ')}`,
    }),
  )
  return sheet
}

const shownIn = ({ entries, coming }: HandoverSheet) =>
  [...entries, ...coming].map(({ patientId }) => patientId)
