import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { AfterHours, type AfterHoursPage, standardAfterHours } from '../domain/after-hours.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { lastAccessOf } from '../store/access-records.ts'
import { afterHoursClinic, saveAfterHours } from '../store/after-hours.ts'
import { answerOnce } from '../store/answered.ts'
import { read, type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { tonightNotes } from './system-notes.ts'

const ACTION = 'edit-after-hours'

/** The clinic's table, who changed it last, and what keeps anybody from being told tonight. */
export const readAfterHours = ({ clinicId }: StaffMember, now: Date = clock()): Promise<AfterHoursPage> =>
  read((tx) => pageWithin(tx, clinicId, now))

async function pageWithin(tx: Tx, clinicId: string, now: Date): Promise<AfterHoursPage> {
  const clinic = await afterHoursClinic(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const last = await lastAccessOf(tx, clinicId, ACTION)
  return {
    table: clinic.table,
    isStandard: clinic.isStandard,
    hoursAreSet: clinic.hours !== null,
    changedAt: last?.at ?? null,
    changedBy: last?.actor ?? null,
    troubles: await tonightNotes(tx, clinicId, now),
  }
}

/**
 * Changes the table. The access record says who, when, from what and to what.
 * @throws Refusal invalid-input, key-reused
 */
export async function saveAfterHoursTable(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<AfterHoursPage> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { afterHours: body } }
  const page = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const table = AfterHours.safeParse(body)
      if (!table.success)
        throw new Refusal('invalid-input', 'The table is not as it is accepted.', faultsOf(table.error, body))
      const before = await afterHoursClinic(tx, clinicId)
      if (!before) throw new Refusal('not-found', 'There is no such clinic.')
      const isStandard = JSON.stringify(table.data) === JSON.stringify(standardAfterHours)
      await saveAfterHours(tx, clinicId, isStandard ? null : table.data)
      await recordAccess(tx, {
        clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: ACTION,
        patientId: null,
        what: `changed the after-hours table: ${changesOf(before.table, table.data) || 'nothing'}`,
      })
      return pageWithin(tx, clinicId, now)
    }),
  )
  tell(clinicId, { patientId: '', kind: 'escalation' })
  return page
}

/** What is other than before, cell by cell, each with both values. */
const changesOf = (before: AfterHours, after: AfterHours): string =>
  (['open', 'closed'] as const)
    .flatMap((hours) =>
      (Object.keys(before[hours]) as (keyof AfterHours['open'])[])
        .filter((urgency) => JSON.stringify(before[hours][urgency]) !== JSON.stringify(after[hours][urgency]))
        .map(
          (urgency) =>
            `${urgency}, ${hours}: from ${JSON.stringify(before[hours][urgency])} to ${JSON.stringify(after[hours][urgency])}`,
        ),
    )
    .join('; ')
