import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { newSecret, sha256 } from '../store/hashes.ts'
import { read, type Tx, write } from '../store/index.ts'
import {
  addCheckInSession,
  addLink,
  type CheckInSession,
  checkInSessionByHash,
  linkByHash,
  revokeLinksOf,
} from '../store/links.ts'
import { newId, stored } from '../store/rows.ts'
import { patientOf } from './patient-of.ts'

/** How long a personal link lives, and the session that it opens. */
const LINK_MS = 180 * 86_400_000
const SESSION_MS = 12 * 3_600_000

/** The check-in page with the token in the fragment: a fragment reaches no server and no server's log. */
const pathOf = (token: string) => `/check-in#${token}`
const after = (now: Date, ms: number) => stored(new Date(now.getTime() + ms))

/** A new link of a patient, as the path of the check-in page. The store keeps its hash alone. */
export async function addNewLink(
  tx: Tx,
  { clinicId, patientId, by, now }: { clinicId: string; patientId: string; by: string; now: Date },
): Promise<string> {
  const token = newSecret()
  await addLink(tx, {
    id: newId(),
    clinicId,
    patientId,
    tokenHash: sha256(token),
    recordedAt: stored(now),
    recordedBy: by,
    expiresAt: after(now, LINK_MS),
  })
  return pathOf(token)
}

/** A further link for a patient, shown once. Earlier ones stay in force until they are revoked. */
export const issueLink = (
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<{ link: string }> => write((tx) => issueLinkWithin(tx, staff, patientId, now))

/**
 * The same at most once per key: a repeat gets the same link.
 * @throws Refusal not-found, key-reused
 */
export const issueLinkOnce = (
  staff: StaffMember,
  patientId: string,
  key: string,
  now: Date = clock(),
): Promise<{ link: string }> => {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { link: patientId } }
  return write((tx) => answerOnce(tx, request, stored(now), () => issueLinkWithin(tx, staff, patientId, now)))
}

async function issueLinkWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  now: Date,
): Promise<{ link: string }> {
  const { clinicId } = staff
  await patientOf(tx, clinicId, patientId)
  const link = await addNewLink(tx, { clinicId, patientId, by: staff.id, now })
  await noteAccess(tx, staff, patientId, 'issue-link', 'a new link', now)
  return { link }
}

/** Ends every link of a patient and every session that one of them opened. */
export async function revokeLinks(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<{ revoked: number }> {
  const revoked = await write(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    const count = await revokeLinksOf(tx, patientId, stored(now), staff.id)
    await noteAccess(tx, staff, patientId, 'revoke-links', `${count} links revoked`, now)
    return count
  })
  tell(staff.clinicId, { patientId, kind: 'link' })
  return { revoked }
}

const noteAccess = (tx: Tx, staff: StaffMember, patientId: string, action: string, what: string, now: Date) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action,
    patientId,
    what,
  })

/**
 * Exchanges a link's token for a short session. Unknown, expired and revoked answer alike.
 * @throws Refusal link-not-valid
 */
export async function exchangeLink(
  token: string,
  now: Date = clock(),
): Promise<{ session: string; expiresAt: string }> {
  const at = stored(now)
  return write(async (tx) => {
    const link = await linkByHash(tx, sha256(token), at)
    if (!link) throw new Refusal('link-not-valid', 'This link is not valid. Ask your clinic for a new one.')
    const { id: linkId, clinicId, patientId } = link
    const session = newSecret()
    const expiresAt = after(now, Math.min(SESSION_MS, Date.parse(link.expiresAt) - now.getTime()))
    await addCheckInSession(tx, {
      id: newId(),
      clinicId,
      patientId,
      linkId,
      hash: sha256(session),
      recordedAt: at,
      expiresAt,
    })
    await recordAccess(tx, {
      clinicId,
      at,
      staffId: null,
      actor: 'patient’s link',
      action: 'open-link',
      patientId,
      what: 'the link was opened',
    })
    return { session, expiresAt }
  })
}

/**
 * Whose a check-in session is.
 * @throws Refusal link-not-valid
 */
export async function checkInSession(session: string, now: Date = clock()): Promise<CheckInSession> {
  const found = await read((tx) => checkInSessionByHash(tx, sha256(session), stored(now)))
  if (!found) throw new Refusal('link-not-valid', 'This page has been open for long. Open your link again.')
  return found
}
