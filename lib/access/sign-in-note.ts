import { now } from '../clock.ts'
import { read, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { staffByEmail } from '../store/staff.ts'
import { recordAccess } from './record.ts'

const WORDS = {
  'sign-in': 'signed in',
  'sign-out': 'signed out',
  'sign-in-refused': 'a sign-in with this address was refused',
  'sign-in-blocked': 'too many sign-ins with this address: refused unread',
} as const

/**
 * Enters a sign-in, tried or done, or a sign-out in the access record of the clinic whose account it names. An address that
 * nobody has belongs to no clinic and is left to the server's log.
 */
export async function noteSignIn(email: string, outcome: keyof typeof WORDS): Promise<void> {
  const staff = await read((tx) => staffByEmail(tx, email))
  if (!staff) return
  const { id, clinicId, name, role } = staff
  const isTheirs = outcome === 'sign-in' || outcome === 'sign-out'
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now()),
      staffId: id,
      actor: isTheirs ? name : `somebody, as ${name}`,
      role: isTheirs ? role : null,
      action: outcome,
      patientId: null,
      what: WORDS[outcome],
    }),
  )
}
