import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type IssuedLink, LINK_DAYS, type LinkInList, NewLink } from '../domain/patient-link.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { newSecret, sha256 } from '../store/hashes.ts'
import { read, type Tx, write } from '../store/index.ts'
import { addLink, linksOf, revokeLinksOf, type StoredLink } from '../store/links.ts'
import { newId, stored } from '../store/rows.ts'
import { parse } from './parse.ts'
import { patientOf } from './patient-of.ts'

/** The patient's own link, where staff ask for nothing else. */
const OWN: NewLink = { holder: 'patient' }

/** When a link that is made or renewed now will end. */
export const linkEnd = (now: Date): string => stored(new Date(now.getTime() + LINK_DAYS * 86_400_000))

/**
 * The check-in page with the clinic in the path, so that its numbers can be shown before any script has run, and
 * the token in the fragment: a fragment reaches no server and no server's log.
 */
const pathOf = (clinicId: string, token: string) => `/check-in/${encodeURIComponent(clinicId)}#${token}`

/** A new link of a patient, as the path of the check-in page. The store keeps its hash alone. */
export async function addNewLink(
  tx: Tx,
  { clinicId, patientId, by, now }: { clinicId: string; patientId: string; by: string; now: Date },
  holder: Pick<StoredLink, 'holder' | 'holderName' | 'maySee'> = asStored(OWN),
): Promise<string> {
  const token = newSecret()
  await addLink(tx, {
    id: newId(),
    clinicId,
    patientId,
    ...holder,
    tokenHash: sha256(token),
    recordedAt: stored(now),
    recordedBy: by,
    expiresAt: linkEnd(now),
    renewedAt: null,
    openedAt: null,
  })
  return pathOf(clinicId, token)
}

const asStored = (wanted: NewLink): Pick<StoredLink, 'holder' | 'holderName' | 'maySee'> =>
  wanted.holder === 'helper'
    ? { holder: 'helper', holderName: wanted.holderName, maySee: wanted.maySee }
    : { holder: 'patient', holderName: null, maySee: true }

/** A further link, of the patient or of a helper, shown once. Earlier ones stay in force until they are ended. */
export const issueLink = (
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
  wanted: NewLink = OWN,
): Promise<IssuedLink> => write((tx) => issueWithin(tx, staff, patientId, wanted, now))

/**
 * The same at most once per key: a repeat gets the same link.
 * @throws Refusal invalid-input, not-found, key-reused
 */
export async function issueLinkOnce(
  staff: StaffMember,
  patientId: string,
  key: string,
  body: unknown = OWN,
  now: Date = clock(),
): Promise<IssuedLink> {
  const wanted = parse('link', NewLink, body)
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { link: patientId, wanted } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), () => issueWithin(tx, staff, patientId, wanted, now)),
  )
}

async function issueWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  wanted: NewLink,
  now: Date,
): Promise<IssuedLink> {
  const { clinicId } = staff
  await patientOf(tx, clinicId, patientId)
  const link = await addNewLink(tx, { clinicId, patientId, by: staff.id, now }, asStored(wanted))
  const whose = wanted.holder === 'helper' ? `a new link of a helper, ${wanted.holderName}` : 'a new link'
  await noteLink(tx, staff, patientId, 'issue-link', whose, now)
  return { link, expiresAt: linkEnd(now) }
}

/**
 * Puts a new link of the same holder in the place of one that was lost, which ends at once with its sessions.
 * @throws Refusal not-found, key-reused
 */
export async function replaceLink(
  staff: StaffMember,
  patientId: string,
  linkId: string,
  key: string,
  now: Date = clock(),
): Promise<IssuedLink> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { replace: linkId, patientId } }
  const issued = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      await patientOf(tx, clinicId, patientId)
      const old = (await linksOf(tx, patientId)).rows.find(({ id }) => id === linkId)
      if (!old) throw noLink()
      await revokeLinksOf(tx, patientId, stored(now), staff.id, linkId)
      const { holder, holderName, maySee } = old
      const at = { clinicId, patientId, by: staff.id, now }
      const link = await addNewLink(tx, at, { holder, holderName, maySee })
      await noteLink(tx, staff, patientId, 'replace-link', `${whoseLink(old)} replaced by a new one`, now)
      return { link, expiresAt: linkEnd(now) }
    }),
  )
  tell(clinicId, { patientId, kind: 'link' })
  return issued
}

/** A patient's links that were not ended, the newest first. */
export async function listLinks(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<LinkInList[]> {
  return read(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    const { rows } = await linksOf(tx, patientId)
    return rows.map(({ id, holder, holderName, maySee, recordedAt, expiresAt, openedAt }) => ({
      id,
      holder,
      holderName,
      maySee,
      since: recordedAt,
      expiresAt,
      hasExpired: expiresAt <= stored(now),
      lastOpenedAt: openedAt,
    }))
  })
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
    await noteLink(tx, staff, patientId, 'revoke-links', `${count} links revoked`, now)
    return count
  })
  tell(staff.clinicId, { patientId, kind: 'link' })
  return { revoked }
}

/**
 * Ends one link with its sessions. One that was ended already stays so.
 * @throws Refusal not-found
 */
export async function revokeLink(
  staff: StaffMember,
  patientId: string,
  linkId: string,
  now: Date = clock(),
): Promise<{ revoked: number }> {
  const revoked = await write(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    const link = (await linksOf(tx, patientId)).rows.find(({ id }) => id === linkId)
    if (!link) throw noLink()
    const count = await revokeLinksOf(tx, patientId, stored(now), staff.id, linkId)
    await noteLink(tx, staff, patientId, 'revoke-links', `${whoseLink(link)} revoked`, now)
    return count
  })
  tell(staff.clinicId, { patientId, kind: 'link' })
  return { revoked }
}

const noLink = () => new Refusal('not-found', 'This patient has no such link, or it was ended already.')

const whoseLink = ({ holder, holderName }: Pick<StoredLink, 'holder' | 'holderName'>) =>
  holder === 'helper' ? `the link of the helper ${holderName}` : 'a link of the patient'

/** Notes in the access record what staff did with a link. */
export const noteLink = (
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  action: string,
  what: string,
  now: Date,
) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    action,
    patientId,
    what,
  })
