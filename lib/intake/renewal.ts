import { randomInt } from 'node:crypto'
import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import type { IssuedCode } from '../domain/patient-link.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { answerOnce } from '../store/answered.ts'
import { sha256 } from '../store/hashes.ts'
import { type Tx, write } from '../store/index.ts'
import { linkByHash, renewLink } from '../store/links.ts'
import { addCode, countTry, liveCodeOf, useCode } from '../store/renewal-codes.ts'
import { newId, stored } from '../store/rows.ts'
import { linkActor } from './link-actor.ts'
import { linkEnd, noteLink } from './links.ts'
import { type OpenedSession, openSession } from './open-link.ts'
import { patientOf } from './patient-of.ts'

const CODE_MS = 15 * 60_000
const MOST_TRIES = 5

/** Of one patient: the same eight digits of two patients have two hashes. */
const hashOf = (patientId: string, code: string) => sha256(`${patientId} ${code}`)

/**
 * A code to be read out on the phone, by which the patient renews a link that has ended or soon will: eight digits,
 * shown once, for 15 minutes and one use. An earlier one ends.
 * @throws Refusal not-found, key-reused
 */
export function issueRenewalCode(
  staff: StaffMember,
  patientId: string,
  key: string,
  now: Date = clock(),
): Promise<IssuedCode> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { renewalCode: patientId } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      await patientOf(tx, clinicId, patientId)
      const code = String(randomInt(100_000_000)).padStart(8, '0')
      const expiresAt = stored(new Date(now.getTime() + CODE_MS))
      const codeHash = hashOf(patientId, code)
      const recorded = { clinicId, recordedAt: stored(now), recordedBy: staff.id }
      await addCode(tx, { id: newId(), patientId, codeHash, expiresAt, ...recorded })
      await noteLink(tx, staff, patientId, 'issue-renewal-code', 'a code to renew a link', now)
      return { code, expiresAt }
    }),
  )
}

/**
 * Renews a link that was not revoked with a code, and opens a session. Whatever does not fit answers alike, and counts
 * against the code: after five wrong tries it is over.
 * @throws Refusal link-not-valid
 */
export async function renewByCode(
  { token, code }: { token: string; code: string },
  now: Date = clock(),
): Promise<OpenedSession> {
  // A refusal within the transaction would take the count of this try back.
  const renewed = await write((tx) => renewWithin(tx, token, code.replace(/[\s-]/g, ''), now))
  if (!renewed)
    throw new Refusal('link-not-valid', 'The code or the link is not valid. Ask your clinic for a new code.')
  return renewed
}

async function renewWithin(tx: Tx, token: string, code: string, now: Date): Promise<OpenedSession | null> {
  const at = stored(now)
  const link = await linkByHash(tx, sha256(token))
  if (!link) return null
  const { id, clinicId, patientId } = link
  const live = await liveCodeOf(tx, patientId, at, MOST_TRIES)
  if (!live) return null
  if (live.codeHash !== hashOf(patientId, code)) {
    await countTry(tx, live.id)
    return null
  }
  const expiresAt = linkEnd(now)
  await useCode(tx, live.id, at)
  await renewLink(tx, id, at, expiresAt)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: null,
    actor: linkActor(link),
    action: 'renew-link',
    patientId,
    what: 'the link was renewed with a code',
  })
  return openSession(tx, { ...link, expiresAt }, now)
}
