import { randomBytes } from 'node:crypto'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import { read } from '../store/index.ts'
import { staffByEmail } from '../store/staff.ts'
import { auth, RESET_SECONDS, resetLink } from './auth.ts'

/**
 * A link with which a person sets their own password, for an administrator to hand over: it holds an hour and works once.
 * @throws Refusal not-found (no account, or a disabled one)
 */
export async function linkToSetPassword(email: string, now: Date = clock()): Promise<string> {
  const staff = await read((tx) => staffByEmail(tx, email))
  if (!staff || staff.disabledAt) throw new Refusal('not-found', `Nobody has an account with ${email}.`)
  const token = randomBytes(32).toString('base64url')
  const { internalAdapter } = await auth().$context
  await internalAdapter.createVerificationValue({
    identifier: `reset-password:${token}`,
    value: staff.id,
    expiresAt: new Date(now.getTime() + RESET_SECONDS * 1000),
  })
  return resetLink(token)
}
