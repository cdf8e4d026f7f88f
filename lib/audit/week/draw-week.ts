import { randomInt } from 'node:crypto'
import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { addDays, fullDate } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { weekSpan } from '../../domain/week-page.ts'
import { clinicById } from '../../store/clinics.ts'
import { type Tx, write } from '../../store/index.ts'
import { addItems, itemsOfWeek } from '../../store/review-items.ts'
import { newId, stored } from '../../store/rows.ts'
import { frameOf } from './frame.ts'
import { weekOf } from './parse.ts'
import { type Chance, drawItems } from './sample.ts'

const WIDE = 2 ** 40
/** What was drawn is kept item by item, each with its chance: so it needs no seed to be looked at again. */
const byMachine: Chance = () => randomInt(WIDE) / WIDE

/**
 * Draws what is read of a week that is over, once: whoever opens it first. Answers how many items it has.
 * @throws Refusal invalid-input (no Monday), conflict (the week is not over), not-found (no such clinic)
 */
export const drawWeek = (
  staff: StaffMember,
  week: unknown,
  now: Date = clock(),
  chance: Chance = byMachine,
): Promise<{ items: number }> => write((tx) => drawWeekWithin(tx, staff, week, now, chance))

/** The same within the caller's transaction. */
export async function drawWeekWithin(
  tx: Tx,
  staff: StaffMember,
  given: unknown,
  now: Date,
  chance: Chance = byMachine,
): Promise<{ items: number }> {
  const { clinicId } = staff
  const week = weekOf(given)
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  refuseUnended(week, clinic.timeZone, now)
  const { rows: before } = await itemsOfWeek(tx, clinicId, week)
  if (before.length > 0) return { items: before.length }

  const frame = await frameOf(tx, clinicId, week, clinic.timeZone, chance)
  const items = drawItems(week, frame, chance, newId)
  if (items.length === 0) return { items: 0 }
  const at = stored(now)
  await addItems(tx, clinicId, items, { recordedAt: at, recordedBy: staff.id })
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: staff.id,
    actor: staff.name,
    action: 'audit',
    patientId: null,
    what: `drew ${items.length} items of the week of ${week} to be read`,
  })
  return { items: items.length }
}

/** A week is read only when it is over. @throws Refusal conflict */
export function refuseUnended(week: string, zone: string, now: Date): void {
  if (weekSpan(week, zone).untilMs <= now.getTime()) return
  throw new Refusal(
    'conflict',
    `The week of ${fullDate(week)} is not over: it can be read from ${fullDate(addDays(week, 7))} on.`,
  )
}
