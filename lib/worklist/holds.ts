import { recordAccess } from '../access/record.ts'
import { stands } from '../assessment/flag-life.ts'
import { now as clock } from '../clock.ts'
import { initialsOf } from '../domain/initials.ts'
import { Refusal } from '../domain/problem.ts'
import { may, type StaffMember } from '../domain/staff.ts'
import type { Hold } from '../domain/worklist.ts'
import { tell } from '../notify/bus.ts'
import { livingFlagsOf } from '../store/flags.ts'
import { dropHold, holdOf, saveHold } from '../store/holds.ts'
import { type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'

/** How long a taken row is theirs who took it: shorter where nothing may wait. */
const HOLD_MS = 15 * 60_000
const HOLD_AT_ONCE_MS = 5 * 60_000

/** Who else has a row, in words for whoever wants it. */
export const takenBy = (hold: Hold) =>
  new Refusal('taken', `Taken by ${hold.name} until ${hold.until}.`, [
    { field: 'hold', value: hold.name, message: `is taken until ${hold.until}` },
  ])

/**
 * Takes a patient's row: it is the taker's for 15 minutes (at-once: 5). Taken is not spoken to.
 * @throws Refusal taken (who has it), not-found
 */
export const takeRow = (staff: StaffMember, patientId: string, now: Date = clock()): Promise<Hold> =>
  change(staff, patientId, now, async (tx, held) => {
    if (held && held.staffId !== staff.id) throw takenBy(held)
    const hold = await holdFor(tx, staff, patientId, now)
    return { answer: hold, action: 'take-row', what: `took the row until ${hold.until}` }
  })

/**
 * Takes one's own row for longer.
 * @throws Refusal taken, conflict (it has lapsed)
 */
export const renewRow = (staff: StaffMember, patientId: string, now: Date = clock()): Promise<Hold> =>
  change(staff, patientId, now, async (tx, held) => {
    if (held && held.staffId !== staff.id) throw takenBy(held)
    if (!held) throw new Refusal('conflict', 'You no longer have this row; take it again.')
    const hold = await holdFor(tx, staff, patientId, now)
    return { answer: hold, action: 'renew-row', what: `kept the row until ${hold.until}` }
  })

/** Gives one's own row back. Whoever does not have it changes nothing. */
export const releaseRow = (staff: StaffMember, patientId: string, now: Date = clock()): Promise<null> =>
  change(staff, patientId, now, async (tx, held) => {
    if (held?.staffId !== staff.id) return { answer: null }
    await dropHold(tx, patientId)
    return { answer: null, action: 'release-row', what: 'gave the row back' }
  })

/**
 * Takes a row from whoever has it, for a reason: the charge nurse's right.
 * @throws Refusal not-allowed, invalid-input (no reason)
 */
export async function overrideRow(
  staff: StaffMember,
  patientId: string,
  reason: string,
  now: Date = clock(),
): Promise<Hold> {
  if (!may(staff.role, 'override-take'))
    throw new Refusal('not-allowed', 'Only the charge nurse takes a row from somebody.')
  const why = typeof reason === 'string' ? reason.trim().slice(0, 500) : ''
  if (!why)
    throw new Refusal('invalid-input', 'A reason is needed.', [
      { field: 'reason', message: 'is missing; accepted: a reason' },
    ])
  return change(staff, patientId, now, async (tx, held) => {
    const hold = await holdFor(tx, staff, patientId, now)
    return {
      answer: hold,
      action: 'override-take',
      what: `took the row from ${held?.name ?? 'nobody'}: ${why}`,
    }
  })
}

type Change<T> = { answer: T; action?: string; what?: string }

async function change<T>(
  staff: StaffMember,
  patientId: string,
  now: Date,
  work: (tx: Tx, held: Hold | null) => Promise<Change<T>>,
): Promise<T> {
  const { clinicId } = staff
  const at = stored(now)
  const done = await write(async (tx) => {
    await isOfClinic(tx, clinicId, patientId)
    const changed = await work(tx, await holdOf(tx, patientId, at))
    const { action, what } = changed
    if (action && what)
      await recordAccess(tx, { clinicId, at, staffId: staff.id, actor: staff.name, action, patientId, what })
    return changed
  })
  if (done.action) tell(clinicId, { patientId, kind: 'hold' })
  return done.answer
}

export async function holdFor(tx: Tx, staff: StaffMember, patientId: string, now: Date): Promise<Hold> {
  const { rows } = await livingFlagsOf(tx, patientId)
  const isAtOnce = rows.some((flag) => stands(flag) && flag.urgency === 'at-once')
  const until = stored(new Date(now.getTime() + (isAtOnce ? HOLD_AT_ONCE_MS : HOLD_MS)))
  const hold: Hold = { staffId: staff.id, name: staff.name, initials: initialsOf(staff.name), until }
  await saveHold(tx, staff.clinicId, patientId, hold, stored(now))
  return hold
}
