import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { Refusal } from '../domain/problem.ts'
import { addCheckInSession, endSession, linkOfSession } from '../store/check-in-sessions.ts'
import { newSecret, sha256 } from '../store/hashes.ts'
import { read, type Tx, write } from '../store/index.ts'
import { linkByHash, noteOpened, type StoredLink } from '../store/links.ts'
import { newId, stored } from '../store/rows.ts'
import { linkActor } from './link-actor.ts'

/** How often an open page is noted: the installed page is opened without the link, by its cookie. */
const NOTE_EVERY_MS = 3_600_000

/** What a phone keeps: the session's secret, until the link ends. */
export type OpenedSession = { session: string; expiresAt: string }

/**
 * Exchanges a link's token for a session that lives as long as the link, so that an installed page opens for months.
 * A phone that has a session of this link already keeps that one. Unknown, expired and revoked answer alike.
 * @throws Refusal link-not-valid
 */
export async function exchangeLink(
  token: string,
  now: Date = clock(),
  had: string | null = null,
): Promise<OpenedSession> {
  return write(async (tx) => {
    const link = await linkByHash(tx, sha256(token))
    if (!link || link.expiresAt <= stored(now))
      throw new Refusal('link-not-valid', 'This link is not valid. Ask your clinic for a new one.')
    await noteOpening(tx, link, 'open-link', now)
    const earlier = had === null ? null : await linkOfSession(tx, sha256(had), stored(now))
    if (had !== null && earlier?.id === link.id && earlier.sessionExpiresAt === link.expiresAt)
      return { session: had, expiresAt: link.expiresAt }
    return openSession(tx, link, now)
  })
}

/** A new session of a link, within the caller's transaction. */
export async function openSession(
  tx: Tx,
  { id: linkId, clinicId, patientId, expiresAt }: StoredLink,
  now: Date,
): Promise<OpenedSession> {
  const session = newSecret()
  await addCheckInSession(tx, {
    id: newId(),
    clinicId,
    patientId,
    linkId,
    hash: sha256(session),
    recordedAt: stored(now),
    expiresAt,
  })
  return { session, expiresAt }
}

/**
 * The link whose session a phone has.
 * @throws Refusal link-not-valid
 */
export async function checkInSession(session: string, now: Date = clock()): Promise<StoredLink> {
  const found = await read((tx) => linkOfSession(tx, sha256(session), stored(now)))
  if (!found) throw new Refusal('link-not-valid', 'This page has been open for long. Open your link again.')
  const { sessionExpiresAt: _end, ...link } = found
  return link
}

/** Notes that the page was opened by a session it had: in the access record, at most once an hour per link. */
export async function noteSessionOpened(link: StoredLink, now: Date = clock()): Promise<void> {
  if (link.openedAt !== null && now.getTime() - Date.parse(link.openedAt) < NOTE_EVERY_MS) return
  await write((tx) => noteOpening(tx, link, 'open-check-in', now))
}

async function noteOpening(
  tx: Tx,
  { id, clinicId, patientId, holder, holderName }: StoredLink,
  action: 'open-link' | 'open-check-in',
  now: Date,
): Promise<void> {
  const at = stored(now)
  await noteOpened(tx, id, at)
  await recordAccess(tx, {
    clinicId,
    at,
    staffId: null,
    actor: linkActor({ holder, holderName }),
    action,
    patientId,
    what: action === 'open-link' ? 'the link was opened' : 'the check-in page was opened',
  })
}

/**
 * Forgets the session of one phone; the link stays.
 * @throws Refusal link-not-valid, where there is none
 */
export async function forgetSession(session: string): Promise<void> {
  if (!(await write((tx) => endSession(tx, sha256(session)))))
    throw new Refusal('link-not-valid', 'Open your personal link again.')
}
