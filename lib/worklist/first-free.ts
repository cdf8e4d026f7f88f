import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import type { Hold } from '../domain/worklist.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { holdFor } from './holds.ts'
import { composeWorklist } from './read-worklist.ts'

/** The row that was taken. */
export type FirstFree = { patientId: string; hold: Hold }

/**
 * Takes the first row that nobody has, in the order of the worklist. Choosing and taking are one transaction:
 * of two who press at once each gets a row of their own. A repeat of one press gets the same row.
 * @param but the patient whose page is open: who asks for the next row has just left theirs
 * @throws Refusal not-found where every row is taken, or there is none
 */
export async function takeFirstFree(
  staff: StaffMember,
  key: string,
  now: Date = clock(),
  but: string | null = null,
): Promise<FirstFree> {
  const { clinicId } = staff
  const once = { clinicId, source: `staff:${staff.id}`, key, body: { take: 'first-free', but } }
  const taken = await write((tx) => answerOnce(tx, once, stored(now), () => takeWithin(tx, staff, now, but)))
  tell(clinicId, { patientId: taken.patientId, kind: 'hold' })
  return taken
}

async function takeWithin(tx: Tx, staff: StaffMember, now: Date, but: string | null): Promise<FirstFree> {
  const { rows } = await composeWorklist(tx, staff.clinicId, now)
  const first = rows.find(
    ({ patientId, hold, admission }) => patientId !== but && hold === null && admission === null,
  )
  if (!first) throw new Refusal('not-found', 'No row is free now.')
  const { patientId } = first
  const hold = await holdFor(tx, staff, patientId, now)
  await recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action: 'take-row',
    patientId,
    what: `took the row, the first that was free, until ${hold.until}`,
  })
  return { patientId, hold }
}
