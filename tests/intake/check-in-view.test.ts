import { beforeEach, describe, expect, it } from 'vitest'
import { CheckInView } from '../../lib/domain/check-in.ts'
import { emptyProfile } from '../../lib/domain/profile.ts'
import { checkInView, enrol, issueLink, receiveReport } from '../../lib/intake/index.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { read, write } from '../../lib/store/index.ts'
import { recordStaffEvent } from '../../lib/worklist/index.ts'
import { at, CLINIC, enrolment, iso, nurse, openClinics, patient, wellReport } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const helper = { holder: 'helper', holderName: 'Rosa Invented' } as const
const keepRules = (body: string) =>
  write((tx) =>
    tx.ruleSet.create({
      data: {
        id: 'r',
        clinicId: CLINIC,
        version: 'x',
        body,
        inForceFrom: iso(0),
        recordedAt: iso(0),
        recordedBy: 'the test',
      },
    }),
  )
const withFeverC = (value: number) =>
  JSON.stringify({
    version: 'x',
    thresholds: { feverC: { ...standardRuleSet.thresholds.feverC, value } },
  })

describe('what a link shows', () => {
  it('is what its holder needs to report, and nothing else', async () => {
    const { patientId, link, drain } = await patient(0, { vessel: 'bag', usualAppearance: 'straw' })
    const phone = await phoneWith(link, 23)
    const { report } = await phone.send('k1', { ...wellReport(drain, 24), note: 'As ever.' }, 24)
    const view = await checkInView(phone.session, at(26))
    expect(CheckInView.parse(view)).toEqual(view)
    const { texts, ownReports, ...rest } = view
    expect(rest).toEqual({
      asOf: iso(26),
      clinic: {
        id: CLINIC,
        name: 'Larkfield clinic (invented)',
        phone: '+1 555 0100',
        afterHoursPhone: null,
        timeZone: 'America/Denver',
        hours: null,
        demo: true,
      },
      patient: { id: patientId, firstName: 'Ada', timeZone: 'America/Denver', language: 'en' },
      sender: { kind: 'patient', name: null, maySee: true },
      limits: { feverC: 38, severePain: 7 },
      drains: [
        {
          id: drain,
          label: 'left kidney',
          kind: 'nephrostomy',
          side: 'left',
          course: 'steady',
          capped: false,
          placedAt: iso(-24 * 30),
          usualAppearance: 'straw',
          flush: null,
          dressingEveryHours: 48,
          vessel: 'bag',
          bagCapacityMl: 600,
          markMl: null,
          readings: 1,
          recent: [{ at: iso(24), volumeMl: 400 }],
        },
      ],
      lastReportAt: iso(24),
      lastReadAt: null,
      followUpEndedAt: null,
    })
    expect(ownReports).toMatchObject([
      {
        report,
        receivedAt: iso(24),
        sentBy: null,
        body: { readings: [{ drain, at: iso(24), volumeMl: 400, appearance: 'clear' }], note: 'As ever.' },
      },
    ])
    expect(Object.keys(texts)).toEqual(['en', 'es', 'ar'])
    expect(JSON.stringify(view)).not.toMatch(/Invented 1|LF-|1960/)
  })

  it('is in the patient’s language', async () => {
    const profile = { ...emptyProfile, checkInLanguage: 'es' as const }
    const { link } = await enrol(nurse, enrolment({ profile }), 'e', at(0))
    const { session } = await phoneWith(link, 1)
    expect((await checkInView(session, at(1))).patient.language).toBe('es')
  })

  it('has no drain that was removed, and no reading of the tube before', async () => {
    const { patientId, link, drain } = await patient()
    const { session, send } = await phoneWith(link, 20)
    await send('k', wellReport(drain, 24), 24)
    await recordStaffEvent(nurse, patientId, { at: iso(25), drain, type: 'exchanged' }, 'e1', at(25))
    expect((await checkInView(session, at(26))).drains).toMatchObject([
      { recent: [], placedAt: iso(25), readings: 1 },
    ])
    await recordStaffEvent(nurse, patientId, { at: iso(26), drain, type: 'removed' }, 'e2', at(26))
    expect((await checkInView(session, at(27))).drains).toEqual([])
  })

  it('says whether staff have opened the patient’s page since the last report', async () => {
    const { patientId, link, drain } = await patient()
    const { session, send } = await phoneWith(link, 1)
    const seen = async (hours: number) => (await checkInView(session, at(hours))).lastReadAt
    const look = (hours: number) =>
      write((tx) => tx.patientState.update({ where: { patientId }, data: { readAt: iso(hours) } }))
    await look(1)
    expect(await seen(2)).toBeNull()
    await send('k1', wellReport(drain, 3), 3)
    expect(await seen(4)).toBeNull()
    await look(5)
    expect(await seen(6)).toBe(iso(5))
    await send('k2', wellReport(drain, 7), 7)
    expect(await seen(8)).toBeNull()
  })

  it('goes on after the end of follow-up, and says so', async () => {
    const { patientId, link } = await patient()
    await write((tx) =>
      tx.patient.update({
        where: { id: patientId },
        data: { followUpEndedAt: iso(5), followUpEnd: 'removed' },
      }),
    )
    const { session } = await phoneWith(link, 6)
    expect((await checkInView(session, at(6))).followUpEndedAt).toBe(iso(5))
  })
})

describe('the thresholds for advice', () => {
  const limitsOf = async (link: string) =>
    (await checkInView((await phoneWith(link, 2)).session, at(2))).limits
  const plan = { logEveryHours: 24, dressingEveryHours: 48, flush: null }

  it('are the most cautious of the drains in place', async () => {
    const { patientId, link } = await enrol(
      nurse,
      {
        ...enrolment(),
        drains: [37.6, 38.5].map((feverC, i) => ({
          ...enrolment().drains[0],
          label: `drain ${i}`,
          plan: { ...plan, overrides: { feverC, severePain: 5 + i } },
        })),
      },
      'e',
      at(0),
    )
    expect(await limitsOf(link)).toEqual({ feverC: 37.6, severePain: 5 })
    const [first] = await read((tx) =>
      tx.drain.findMany({ where: { patientId }, orderBy: { ordinal: 'asc' } }),
    )
    const event = { at: iso(1), drain: first?.id ?? '', type: 'removed' }
    await recordStaffEvent(nurse, patientId, event, 'e1', at(1))
    expect(await limitsOf(link)).toEqual({ feverC: 38.5, severePain: 6 })
  })

  it('are those of the clinic’s rule set in force', async () => {
    const { link } = await patient()
    await keepRules(withFeverC(37.8))
    expect(await limitsOf(link)).toEqual({ feverC: 37.8, severePain: 7 })
  })

  it('are the standard ones where the rule set cannot be read: the page is not lost', async () => {
    const { link } = await patient()
    await keepRules('no JSON')
    expect(await limitsOf(link)).toEqual({ feverC: 38, severePain: 7 })
  })
})

describe('own reports', () => {
  it('are those of the last 48 h sent by a link, as they now stand, the newest first', async () => {
    const { patientId, link, drain } = await patient()
    const { session, send } = await phoneWith(link, 1)
    const first = await send('k1', wellReport(drain, 1, 40), 1)
    const second = await send('k2', wellReport(drain, 10), 10)
    const staff = { clinicId: CLINIC, patientId, door: 'phone-in', source: nurse.id, by: nurse.id } as const
    await receiveReport({ ...staff, key: 'n1', body: { note: 'Said by phone.' } }, at(11))
    const corrected = await send('k3', { ...wellReport(drain, 1, 400), supersedes: first.report }, 12)
    const shown = async (hours: number) =>
      (await checkInView(session, at(hours))).ownReports.map(({ report }) => report)
    expect(await shown(13)).toEqual([corrected.report, second.report])
    expect(await shown(59)).toEqual([corrected.report])
    expect(await shown(61)).toEqual([])
  })

  it('can be sent again as they are shown', async () => {
    const { link, drain } = await patient()
    const { session, send } = await phoneWith(link, 1)
    const large = { readings: [{ drain, at: iso(1), volumeMl: 5600, confirmed: true, total: true }] }
    await send('k1', { ...wellReport(drain, 1), ...large }, 1)
    const [own] = (await checkInView(session, at(2))).ownReports
    await send('k2', { ...own?.body, supersedes: own?.report }, 2)
    const [again] = (await checkInView(session, at(3))).ownReports
    expect(again?.body).toEqual(own?.body)
  })

  it('and earlier readings are not shown by a link that may not see', async () => {
    const { patientId, link, drain } = await patient()
    const own = await phoneWith(link, 1)
    await own.send('k1', wellReport(drain, 2), 2)
    const blind = await issueLink(nurse, patientId, at(3), { ...helper, maySee: false })
    const theirs = await phoneWith(blind.link, 3)
    const before = await checkInView(theirs.session, at(3))
    expect(before).toMatchObject({
      sender: { kind: 'helper', name: 'Rosa Invented', maySee: false },
      drains: [{ recent: [] }],
      ownReports: [],
      lastReportAt: null,
    })
    await theirs.send('k2', wellReport(drain, 4), 4)
    expect(await checkInView(theirs.session, at(5))).toMatchObject({ ownReports: [], lastReportAt: iso(4) })
    expect((await checkInView(own.session, at(5))).ownReports[0]?.sentBy).toBe('Rosa Invented')
  })
})
