import { beforeEach, describe, expect, it } from 'vitest'
import {
  checkInSession,
  checkInView,
  exchangeLink,
  forgetSession,
  issueLink,
  issueLinkOnce,
  listLinks,
  replaceLink,
  revokeLink,
  revokeLinks,
} from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith, tokenOf } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const DAYS_180 = 180 * 24
const helper = { holder: 'helper', holderName: 'Rosa Invented', maySee: true } as const
const notValid = { kind: 'link-not-valid' }
const said = (work: Promise<unknown>) =>
  work.then(
    () => 'let in',
    (error: { kind: string; detail: string }) => `${error.kind}: ${error.detail}`,
  )

describe('a personal link', () => {
  it('names its clinic in the path and keeps its token in the fragment', async () => {
    const { link } = await patient()
    expect(link).toMatch(new RegExp(`^/check-in/${CLINIC}#[\\w-]{43}$`))
  })

  it('opens a session that lives as long as the link, and one of a phone at most', async () => {
    const { patientId, link } = await patient()
    const { session, expiresAt } = await exchangeLink(tokenOf(link), at(25))
    expect(expiresAt).toBe(iso(DAYS_180))
    expect(await checkInSession(session, at(DAYS_180 - 1))).toMatchObject({
      clinicId: CLINIC,
      patientId,
      holder: 'patient',
      maySee: true,
    })
    await expect(checkInSession(session, at(DAYS_180))).rejects.toMatchObject(notValid)
    expect(await exchangeLink(tokenOf(link), at(26), session)).toEqual({ session, expiresAt })
    expect((await exchangeLink(tokenOf(link), at(26), 'of-another-link')).session).not.toBe(session)
    expect(await read((tx) => tx.checkInSession.count())).toBe(2)
  })

  it('is forgotten by one phone and goes on working', async () => {
    const { link } = await patient()
    const { session } = await exchangeLink(tokenOf(link), at(1))
    const other = await exchangeLink(tokenOf(link), at(1))
    await forgetSession(session)
    await expect(checkInSession(session, at(2))).rejects.toMatchObject(notValid)
    await expect(forgetSession(session)).rejects.toMatchObject(notValid)
    expect(await checkInSession(other.session, at(2))).toMatchObject({ holder: 'patient' })
    expect(await said(exchangeLink(tokenOf(link), at(2)))).toBe('let in')
  })

  it('answers alike when unknown, expired and revoked', async () => {
    const { patientId, link } = await patient()
    const revoked = (await issueLink(nurse, patientId, at(0))).link
    const answers = [
      await said(exchangeLink('nobody-has-this', at(1))),
      await said(exchangeLink(tokenOf(link), at(DAYS_180))),
    ]
    expect(await revokeLinks(nurse, patientId, at(2))).toEqual({ revoked: 2 })
    answers.push(await said(exchangeLink(tokenOf(revoked), at(3))))
    expect(new Set(answers).size).toBe(1)
    expect(answers[0]).toMatch(/^link-not-valid/)
  })

  it('ends its sessions when it is revoked', async () => {
    const { patientId, link } = await patient()
    const { session } = await exchangeLink(tokenOf(link), at(1))
    await revokeLinks(nurse, patientId, at(2))
    await expect(checkInSession(session, at(2))).rejects.toMatchObject(notValid)
  })

  it('and its session stand in the store as hashes alone', async () => {
    const { link } = await patient()
    const { session } = await exchangeLink(tokenOf(link), at(1))
    const stored = await read(async (tx) =>
      JSON.stringify([await tx.patientLink.findMany(), await tx.checkInSession.findMany()]),
    )
    expect(stored).not.toContain(tokenOf(link))
    expect(stored).not.toContain(session)
  })

  it('is worked on by the patient’s own clinic alone', async () => {
    const { patientId } = await patient()
    const [link] = await listLinks(nurse, patientId, at(1))
    const id = link?.id ?? ''
    for (const work of [
      issueLink(stranger, patientId, at(1)),
      listLinks(stranger, patientId, at(1)),
      replaceLink(stranger, patientId, id, 'r', at(1)),
      revokeLink(stranger, patientId, id, at(1)),
      revokeLinks(stranger, patientId, at(1)),
    ])
      await expect(work).rejects.toMatchObject({ kind: 'not-found' })
  })
})

describe('the list of a patient’s links', () => {
  it('says whose each is, since when, when it was last opened and how long it lives', async () => {
    const { patientId, link } = await patient()
    await issueLink(nurse, patientId, at(2), helper)
    const { session } = await exchangeLink(tokenOf(link), at(3))
    expect(await listLinks(nurse, patientId, at(4))).toMatchObject([
      { holder: 'helper', holderName: 'Rosa Invented', since: iso(2), lastOpenedAt: null, hasExpired: false },
      { holder: 'patient', holderName: null, since: iso(0), lastOpenedAt: iso(3), expiresAt: iso(DAYS_180) },
    ])
    await checkInView(session, at(50))
    expect((await listLinks(nurse, patientId, at(51)))[1]?.lastOpenedAt).toBe(iso(50))
    const expired = await listLinks(nurse, patientId, at(DAYS_180))
    expect(expired.map(({ hasExpired }) => hasExpired)).toEqual([false, true])
  })

  it('notes an opening by a session that it had once an hour, in the access record too', async () => {
    const { link } = await patient()
    const { session } = await exchangeLink(tokenOf(link), at(1))
    for (const hours of [1.5, 2, 2.5, 3.2]) await checkInView(session, at(hours))
    const rows = await read((tx) =>
      tx.accessRecord.findMany({ where: { staffId: null }, orderBy: { seq: 'asc' } }),
    )
    expect(rows.map(({ action, at: when }) => [action, when])).toEqual([
      ['open-link', iso(1)],
      ['open-check-in', iso(2)],
      ['open-check-in', iso(3.2)],
    ])
  })
})

describe('a link that was lost', () => {
  it('is replaced in one step: the old one ends with its sessions, the new one is shown once', async () => {
    const { patientId, link } = await patient()
    const { session } = await exchangeLink(tokenOf(link), at(1))
    const [old] = await listLinks(nurse, patientId, at(1))
    const issued = await replaceLink(nurse, patientId, old?.id ?? '', 'r1', at(2))
    await expect(checkInSession(session, at(2))).rejects.toMatchObject(notValid)
    await expect(exchangeLink(tokenOf(link), at(2))).rejects.toMatchObject(notValid)
    expect(await said(exchangeLink(tokenOf(issued.link), at(2)))).toBe('let in')
    expect(await replaceLink(nurse, patientId, old?.id ?? '', 'r1', at(3))).toEqual(issued)
    expect(await listLinks(nurse, patientId, at(3))).toHaveLength(1)
    await expect(replaceLink(nurse, patientId, old?.id ?? '', 'r2', at(3))).rejects.toMatchObject({
      kind: 'not-found',
    })
  })

  it('keeps its holder, and leaves the other links alone', async () => {
    const { patientId, link } = await patient()
    await issueLink(nurse, patientId, at(1), { ...helper, maySee: false })
    const [old] = await listLinks(nurse, patientId, at(1))
    await replaceLink(nurse, patientId, old?.id ?? '', 'r1', at(2))
    expect(await listLinks(nurse, patientId, at(2))).toMatchObject([
      { holder: 'helper', holderName: 'Rosa Invented', maySee: false, since: iso(2) },
      { holder: 'patient' },
    ])
    expect(await said(exchangeLink(tokenOf(link), at(3)))).toBe('let in')
  })

  it('is ended by itself, once', async () => {
    const { patientId, link } = await patient()
    const other = await issueLink(nurse, patientId, at(1), helper)
    const [newest] = await listLinks(nurse, patientId, at(1))
    expect(await revokeLink(nurse, patientId, newest?.id ?? '', at(2))).toEqual({ revoked: 1 })
    await expect(revokeLink(nurse, patientId, newest?.id ?? '', at(2))).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(exchangeLink(tokenOf(other.link), at(2))).rejects.toMatchObject(notValid)
    expect(await said(exchangeLink(tokenOf(link), at(2)))).toBe('let in')
  })
})

describe('a helper’s link', () => {
  it('is issued once per key, with a name', async () => {
    const { patientId } = await patient()
    const issued = await issueLinkOnce(nurse, patientId, 'k1', helper, at(1))
    expect(await issueLinkOnce(nurse, patientId, 'k1', helper, at(2))).toEqual(issued)
    await expect(
      issueLinkOnce(nurse, patientId, 'k1', { ...helper, holderName: 'Ana' }, at(2)),
    ).rejects.toMatchObject({ kind: 'key-reused' })
    await expect(
      issueLinkOnce(nurse, patientId, 'k2', { holder: 'helper', holderName: ' ', maySee: true }, at(2)),
    ).rejects.toMatchObject({ kind: 'invalid-input', faults: [{ field: 'holderName' }] })
  })

  it('makes each report say who sent it, whatever the body says', async () => {
    const { patientId, drain, link } = await patient()
    const issued = await issueLink(nurse, patientId, at(0), helper)
    const theirs = await phoneWith(issued.link, 1)
    const own = await phoneWith(link, 1)
    await theirs.send('k1', { ...wellReport(drain, 1), reporter: 'patient' }, 1)
    await own.send('k2', wellReport(drain, 2), 2)
    await own.send('k3', { ...wellReport(drain, 3), reporter: 'helper' }, 3)
    const ids = await listLinks(nurse, patientId, at(4))
    expect(await read((tx) => tx.report.findMany({ orderBy: { receivedAt: 'asc' } }))).toMatchObject([
      {
        reporter: 'helper',
        sentBy: 'Rosa Invented',
        linkId: ids.find(({ holder }) => holder === 'helper')?.id,
      },
      { reporter: 'patient', sentBy: null, linkId: ids.find(({ holder }) => holder === 'patient')?.id },
      { reporter: 'helper', sentBy: null },
    ])
    const rows = await read((tx) => tx.accessRecord.findMany({ where: { action: 'report' } }))
    expect(rows.map(({ actor }) => actor)).toEqual([
      'helper’s link: Rosa Invented',
      'patient’s link',
      'patient’s link',
    ])
  })
})
