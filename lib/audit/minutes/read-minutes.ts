import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import type { LocalDate } from '../../domain/instant.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { type KeptMinutes, type MinutesPage, SignedMinutes } from '../../domain/week-minutes.ts'
import { hashOfBody } from '../../store/hashes.ts'
import { snapshot, type Tx, write } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'
import { minutesOf, type StoredMinutes } from '../../store/week-minutes.ts'
import { weekOf } from '../week/parse.ts'
import { composeMinutes } from './content.ts'

/**
 * A week's minutes as they stand now, and as they were signed, with every amendment. Each hash is tried on reading.
 * @throws Refusal invalid-input
 */
export async function readMinutes(
  staff: StaffMember,
  given: unknown,
  now: Date = clock(),
): Promise<MinutesPage> {
  const { clinicId } = staff
  const week = weekOf(given)
  const page = await snapshot(async (tx): Promise<MinutesPage> => {
    const content = await composeMinutes(tx, clinicId, week, now)
    return {
      asOf: stored(now),
      clinic: content.clinic,
      week,
      isOver: content.until <= stored(now),
      now: content,
      hash: hashOfBody(content),
      signed: await keptMinutes(tx, clinicId, week),
    }
  })
  await note(staff, 'view-minutes', `opened the minutes of the week of ${week}`, now)
  return page
}

/**
 * Signed minutes by their id, or the newest of the week, for printing.
 * @throws Refusal not-found, conflict (its hash does not fit), invalid-input
 */
export async function readSignedMinutes(
  staff: StaffMember,
  given: unknown,
  id: string | null,
  now: Date = clock(),
): Promise<KeptMinutes & { minutes: SignedMinutes }> {
  const week = weekOf(given)
  const all = await snapshot((tx) => keptMinutes(tx, staff.clinicId, week))
  const found = id === null ? all[0] : all.find((one) => one.id === id)
  if (!found) throw new Refusal('not-found', 'These minutes have not been signed.')
  const { minutes, isWhole } = found
  if (!minutes || !isWhole)
    throw new Refusal(
      'conflict',
      'These minutes do not fit their hash any more: they are not printed as signed.',
    )
  await note(staff, 'print-minutes', `printed the minutes of the week of ${week} (${found.id})`, now)
  return { ...found, minutes }
}

/** The newest first. */
export async function keptMinutes(tx: Tx, clinicId: string, week: LocalDate): Promise<KeptMinutes[]> {
  const { rows } = await minutesOf(tx, clinicId, week)
  return rows.map(kept).toReversed()
}

function kept({ id, hash, body }: StoredMinutes): KeptMinutes {
  try {
    const said: unknown = JSON.parse(body)
    const read = SignedMinutes.safeParse(said)
    return { id, hash, isWhole: hashOfBody(said) === hash, minutes: read.success ? read.data : null }
  } catch {
    return { id, hash, isWhole: false, minutes: null }
  }
}

const note = (staff: StaffMember, action: string, what: string, now: Date): Promise<void> =>
  write((tx) =>
    recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      role: staff.role,
      action,
      patientId: null,
      what,
    }),
  )
