import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import { NewShift, onCallAt, type RotaPage, rotaGaps } from '../domain/rota.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { afterHoursClinic } from '../store/after-hours.ts'
import { answerOnce } from '../store/answered.ts'
import { read, type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { addShift, removeShift, shiftById, shiftsFrom } from '../store/shifts.ts'

/** How far ahead a hole in the rota is pointed out. */
const AHEAD_MS = 14 * 86_400_000

/** The rota of a clinic from now on, and where nobody is on call outside opening hours in the next 14 days. */
export const readRota = ({ clinicId }: StaffMember, now: Date = clock()): Promise<RotaPage> =>
  read((tx) => rotaWithin(tx, clinicId, now))

async function rotaWithin(tx: Tx, clinicId: string, now: Date): Promise<RotaPage> {
  const clinic = await afterHoursClinic(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { hours, timeZone } = clinic
  const { rows: shifts } = await shiftsFrom(tx, clinicId, stored(now))
  const ms = now.getTime()
  const at = (instant: number) => stored(new Date(instant))
  return {
    asOf: stored(now),
    shifts,
    gaps:
      hours &&
      rotaGaps(shifts, hours, timeZone, ms, ms + AHEAD_MS).map(({ from, until }) => ({
        from: at(from),
        until: at(until),
      })),
    now: onCallAt(shifts, ms).map(({ name }) => name),
  }
}

/**
 * Adds a shift.
 * @throws Refusal invalid-input, key-reused
 */
export async function addToRota(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<RotaPage> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { shift: body } }
  await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const shift = NewShift.safeParse(body)
      if (!shift.success)
        throw new Refusal('invalid-input', 'The shift is not as it is accepted.', faultsOf(shift.error, body))
      if (Date.parse(shift.data.until) <= now.getTime())
        throw new Refusal('invalid-input', 'The shift is over already.', [
          { field: 'until', value: shift.data.until, message: 'accepted: a time ahead' },
        ])
      const id = await addShift(tx, shift.data, { clinicId, recordedAt: stored(now), recordedBy: staff.id })
      const { name, rank, from, until } = shift.data
      await note(tx, staff, `put on call: ${name}, rank ${rank}, ${from} to ${until} (${id})`, now)
      return id
    }),
  )
  tell(clinicId, { patientId: '', kind: 'escalation' })
  return readRota(staff, now)
}

/**
 * Takes a shift out of the rota.
 * @throws Refusal not-found
 */
export async function removeFromRota(staff: StaffMember, id: string, now: Date = clock()): Promise<RotaPage> {
  const { clinicId } = staff
  await write(async (tx) => {
    const shift = await shiftById(tx, clinicId, id)
    if (!shift) throw new Refusal('not-found', 'There is no such shift in this clinic.')
    if (!(await removeShift(tx, clinicId, id, stored(now), staff.id))) return
    const { name, rank, from, until } = shift
    await note(tx, staff, `took off call: ${name}, rank ${rank}, ${from} to ${until} (${id})`, now)
  })
  tell(clinicId, { patientId: '', kind: 'escalation' })
  return readRota(staff, now)
}

const note = (tx: Tx, { clinicId, id: staffId, name: actor, role }: StaffMember, what: string, now: Date) =>
  recordAccess(tx, {
    clinicId,
    at: stored(now),
    staffId,
    actor,
    role,
    action: 'edit-rota',
    patientId: null,
    what,
  })
