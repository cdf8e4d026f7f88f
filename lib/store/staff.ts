import { z } from 'zod'
import { type Role, StaffMember } from '../domain/staff.ts'
import type { Tx } from './client.ts'
import { newId, type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

const StoredStaff = StaffMember.extend({
  disabledAt: z
    .union([z.string(), z.date()])
    .nullable()
    .transform((at) => (at ? stored(at) : null)),
})
export type StoredStaff = z.infer<typeof StoredStaff>

const columns = sql`"id", "clinicId", "name", "email", "role", "disabledAt"`

/** By the id or by the e-mail address, which is kept in lower case. */
export const staffById = (tx: Tx, id: string): Promise<StoredStaff | null> =>
  rowOf(tx, 'staff', StoredStaff, sql`SELECT ${columns} FROM "Staff" WHERE "id" = ${id}`)

export const staffByEmail = (tx: Tx, email: string): Promise<StoredStaff | null> =>
  rowOf(tx, 'staff', StoredStaff, sql`SELECT ${columns} FROM "Staff" WHERE "email" = ${email.toLowerCase()}`)

export const allStaff = (tx: Tx): Promise<Rows<StoredStaff>> =>
  rowsOf(tx, 'staff', StoredStaff, sql`SELECT ${columns} FROM "Staff" ORDER BY "clinicId", "name", "id"`)

/** A member of staff with the account that the sign-in library reads. Without a hash nobody can sign in to it yet. */
export async function addStaff(
  tx: Tx,
  staff: StaffMember,
  passwordHash: string | null,
  now: Date,
): Promise<void> {
  const stamps = { createdAt: now, updatedAt: now }
  await tx.staff.create({
    data: { ...staff, email: staff.email.toLowerCase(), emailVerified: true, ...stamps },
  })
  await tx.account.create({
    data: {
      id: newId(),
      userId: staff.id,
      accountId: staff.id,
      providerId: 'credential',
      password: passwordHash,
      ...stamps,
    },
  })
}

export async function saveRole(tx: Tx, staffId: string, role: Role): Promise<void> {
  await tx.staff.update({ where: { id: staffId }, data: { role } })
}

/** Ends an account and every session of it. The row stays: what its owner did stays theirs. */
export async function disableStaff(tx: Tx, staffId: string, now: Date): Promise<void> {
  await tx.staff.update({ where: { id: staffId }, data: { disabledAt: now } })
  await endSessionsOf(tx, staffId)
}

/** Ends every session of one person. Says how many there were. */
export async function endSessionsOf(tx: Tx, staffId: string): Promise<number> {
  const { count } = await tx.session.deleteMany({ where: { userId: staffId } })
  return count
}
