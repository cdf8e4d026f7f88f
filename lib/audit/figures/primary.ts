import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { type NamedPrimary, NewPrimary } from '../../domain/figures.ts'
import type { LocalDate } from '../../domain/instant.ts'
import { addDays, localDate } from '../../domain/local-time.ts'
import { faultsOf, Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { answerOnce } from '../../store/answered.ts'
import { addPrimary, primariesOf } from '../../store/audit-primary.ts'
import { clinicById } from '../../store/clinics.ts'
import { type Tx, write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import { mondayOf } from './weeks.ts'

/**
 * Which figure a clinic judges itself by in a week, and which one is named for later weeks. A naming holds for the weeks that
 * begin after it, so that none is named once its number is known.
 */
export async function primaryWithin(
  tx: Tx,
  clinicId: string,
  week: LocalDate,
  now: Date,
): Promise<{ primary: NamedPrimary | null; next: NamedPrimary | null }> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { rows } = await primariesOf(tx, clinicId, stored(now))
  const named = rows.map(({ figure, recordedAt, by, why }) => ({
    figure,
    at: recordedAt,
    by,
    why,
    from: addDays(mondayOf(localDate(recordedAt, clinic.timeZone)), 7),
  }))
  const newest = named.at(-1)
  return {
    primary: named.findLast(({ from }) => from <= week) ?? null,
    next: newest && newest.from > week ? newest : null,
  }
}

/**
 * Names the figure that a clinic will judge itself by.
 * @throws Refusal invalid-input, key-reused
 */
export async function namePrimary(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ from: LocalDate }> {
  const read = NewPrimary.safeParse(body)
  if (!read.success)
    throw new Refusal('invalid-input', 'This is not as it is accepted.', faultsOf(read.error, body))
  const { clinicId } = staff
  const at = stored(now)
  const { figure, why } = read.data
  return write((tx) =>
    answerOnce(tx, { clinicId, source: staff.id, key, body: { primary: body } }, at, async () => {
      await addPrimary(tx, { id: newId(), clinicId, figure, why, recordedAt: at, recordedBy: staff.id })
      await recordAccess(tx, {
        clinicId,
        at,
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: 'name-primary-figure',
        patientId: null,
        what: `named the figure that the clinic judges itself by: ${figure}`,
      })
      const clinic = await clinicById(tx, clinicId)
      return { from: addDays(mondayOf(localDate(at, clinic?.timeZone ?? 'UTC')), 7) }
    }),
  )
}
