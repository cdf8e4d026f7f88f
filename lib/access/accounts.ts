import { z } from 'zod'
import { now as clock } from '../clock.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import { Role, type StaffMember } from '../domain/staff.ts'
import { clinicById } from '../store/clinics.ts'
import { read, type Tx, write } from '../store/index.ts'
import { newId, type Rows, stored } from '../store/rows.ts'
import {
  addStaff,
  allStaff,
  disableStaff,
  endSessionsOf,
  type StoredStaff,
  saveRole,
  staffByEmail,
} from '../store/staff.ts'
import { hashPassword, passwordTrouble } from './password.ts'
import { recordAccess } from './record.ts'

const NewStaff = z.strictObject({
  clinicId: z.string().min(1, 'accepted: the id of a clinic'),
  name: z.string().trim().min(1, 'accepted: the full name').max(200),
  email: z.email('accepted: an e-mail address').max(200).toLowerCase(),
  role: Role,
  /** Null: nobody can sign in until a password was set through a reset link. */
  password: z.string().nullable(),
})
export type NewStaff = z.input<typeof NewStaff>

/** Who works on the accounts: an administrator's name, or the command line. */
type By = string

/**
 * Makes an account. Nobody makes their own: sign-up is closed.
 * @throws Refusal invalid-input, conflict (the address is taken), not-found (no such clinic)
 */
export async function createStaff(given: NewStaff, by: By, now: Date = clock()): Promise<StaffMember> {
  const parsed = NewStaff.safeParse(given)
  if (!parsed.success)
    throw new Refusal(
      'invalid-input',
      'The account is not as it is accepted.',
      faultsOf(parsed.error, { ...given, password: undefined }),
    )
  const { password, ...person } = parsed.data
  const message = password === null ? null : passwordTrouble(password, [person.name, person.email])
  if (message)
    throw new Refusal('invalid-input', 'The password is not accepted.', [{ field: 'password', message }])
  const hash = password === null ? null : await hashPassword(password)
  const staff: StaffMember = { id: newId(), ...person }
  await write(async (tx) => {
    if (!(await clinicById(tx, staff.clinicId)))
      throw new Refusal('not-found', `There is no clinic ${staff.clinicId}.`)
    if (await staffByEmail(tx, staff.email))
      throw new Refusal('conflict', `${staff.email} has an account already.`)
    await addStaff(tx, staff, hash, now)
    await note(tx, staff, by, 'create-staff', `made an account for ${staff.name} as ${staff.role}`, now)
  })
  return staff
}

/**
 * Changes what a person may do, from their next request on. Their sessions end, so that no screen shows what is no longer theirs.
 * @throws Refusal not-found
 */
export const setRole = (email: string, role: Role, by: By, now: Date = clock()): Promise<StoredStaff> =>
  change(email, async (tx, staff) => {
    await saveRole(tx, staff.id, role)
    await endSessionsOf(tx, staff.id)
    await note(
      tx,
      staff,
      by,
      'set-role',
      `changed the role of ${staff.name} from ${staff.role} to ${role}`,
      now,
    )
    return { ...staff, role }
  })

/**
 * Ends an account and its sessions at once.
 * @throws Refusal not-found
 */
export const disableAccount = (email: string, by: By, now: Date = clock()): Promise<StoredStaff> =>
  change(email, async (tx, staff) => {
    await disableStaff(tx, staff.id, now)
    await note(tx, staff, by, 'disable-staff', `disabled the account of ${staff.name}`, now)
    return { ...staff, disabledAt: stored(now) }
  })

export const listStaff = (): Promise<Rows<StoredStaff>> => read(allStaff)

function change(
  email: string,
  work: (tx: Tx, staff: StoredStaff) => Promise<StoredStaff>,
): Promise<StoredStaff> {
  return write(async (tx) => {
    const staff = await staffByEmail(tx, email)
    if (!staff) throw new Refusal('not-found', `Nobody has an account with ${email}.`)
    return work(tx, staff)
  })
}

const note = (
  tx: Tx,
  { clinicId }: { clinicId: string },
  actor: By,
  action: string,
  what: string,
  now: Date,
) => recordAccess(tx, { clinicId, at: stored(now), staffId: null, actor, action, patientId: null, what })
