import { readFileSync } from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { editPatient, endFollowUp, stopReminders, stopView } from '../../lib/intake/index.ts'
import { giveReminders } from '../../lib/notify/reminder-timer.ts'
import { stopToken } from '../../lib/notify/stop-token.ts'
import { closeStore, read, write } from '../../lib/store/index.ts'
import { at, iso, nurse, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { deliver } from './deliver-all.ts'
import { house, log, memory, person, profile } from './person.ts'

const database = databasePerTest()
beforeEach(openClinics)
beforeEach(() => void vi.stubEnv('AUTH_SECRET', house.secret))

const next = async (patientId: string) =>
  (await read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId } }))).nextReminderAt
const reminders = () => read((tx) => tx.reminder.findMany({ orderBy: { recordedAt: 'asc' } }))
const letter = () => read((tx) => tx.outbox.findFirstOrThrow({ where: { kind: { startsWith: 'reminder' } } }))

// Hour 9 is ten in the morning in Denver. The log is due at hour 33; the patient's hour is 32; a nurse's, 45.
describe('a reminder', () => {
  it('is planned with the assessment, given at the patient’s hour, and again after the miss', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    expect(await next(patientId)).toBe(iso(32))
    expect(await giveReminders(at(31.99))).toEqual({ given: 0, errors: [] })
    expect(await giveReminders(at(32))).toEqual({ given: 1, errors: [] })
    expect(await giveReminders(at(32.001))).toEqual({ given: 0, errors: [] })
    expect(await next(patientId)).toBe(iso(39))
    expect(await giveReminders(at(39.01))).toEqual({ given: 1, errors: [] })
    expect(await next(patientId)).toBeNull()
    expect(await reminders()).toMatchObject([
      { kind: 'due', dueAt: iso(33), channel: 'email' },
      { kind: 'missed', dueAt: iso(33), channel: 'email' },
    ])
  })

  it('is one for several drains', async () => {
    const { patientId, drains } = await person({}, 2)
    await log(patientId, drains[0] ?? '', 8)
    await log(patientId, drains[1] ?? '', 9)
    for (let hour = 9; hour < 60; hour += 0.5) await giveReminders(at(hour))
    expect((await reminders()).map(({ kind }) => kind)).toEqual(['due', 'missed'])
  })

  it('is planned anew by a report, and not given after it', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await log(patientId, drains[0] ?? '', 31)
    expect(await giveReminders(at(32))).toEqual({ given: 0, errors: [] })
    expect(await next(patientId)).toBe(iso(56)) // nine the next morning
  })

  it('is given once when two processes are at it', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await Promise.all([giveReminders(at(32)), giveReminders(at(32)), giveReminders(at(32))])
    expect(await reminders()).toHaveLength(1)
    expect(await read((tx) => tx.outbox.count({ where: { kind: 'reminder' } }))).toBe(1)
  })

  it('is refused by the store itself a second time', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    const [given] = await reminders()
    if (!given) throw new Error('none was given')
    await expect(write((tx) => tx.reminder.create({ data: { ...given, id: 'again' } }))).rejects.toThrow(
      /unique/i,
    )
  })

  it('of one patient that fails holds up no other, and is tried again', async () => {
    const [bad, good] = [await person(), await person()]
    for (const { patientId, drains } of [bad, good]) await log(patientId, drains[0] ?? '', 9)
    await write((tx) => tx.patient.update({ where: { id: bad.patientId }, data: { profile: '{' } }))
    const { given, errors } = await giveReminders(at(32))
    expect([given, errors.map(({ patientId }) => patientId)]).toEqual([1, [bad.patientId]])
    await write((tx) =>
      tx.patient.update({ where: { id: bad.patientId }, data: { profile: JSON.stringify(profile()) } }),
    )
    expect(await giveReminders(at(32.2))).toEqual({ given: 1, errors: [] })
  })
})

describe('its letter', () => {
  it('says nothing of health and nothing of the person, and how to stop', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    const { sent, transports } = memory()
    expect(await deliver(transports, house, at(32))).toEqual({ sent: 1, errors: [] })
    const [mail] = sent
    expect(mail).toMatchObject({
      to: 'ada@home.example',
      subject: 'A message from your clinic',
      language: 'en',
    })
    expect(mail?.text).toContain('https://round.example/check-in/clinic-larkfield\n')
    expect(mail?.text).toContain('+1 555 0100')
    const stop = /https:\/\/round\.example\/stop\?t=(\S+)/.exec(mail?.text ?? '')
    expect(mail?.stopAddress).toBe(`https://round.example/api/stop?t=${stop?.[1]}`)
    expect(`${mail?.subject} ${mail?.text}`).not.toMatch(
      /ada|invented|larkfield clinic|drain|tube|kidney|nephro|log/i,
    )
    expect(JSON.stringify(await letter())).not.toMatch(/@|555/) // the store keeps no address beside the profile
  })

  it.each([
    ['es', 'Su clínica le pide'],
    ['ar', 'تطلب منك عيادتك'],
  ] as const)('is in the patient’s language: %s', async (checkInLanguage, words) => {
    const { patientId, drains } = await person({
      checkInLanguage,
      reminders: { channel: 'gateway', at: '09:00' },
    })
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    const { sent, transports } = memory()
    await deliver(transports, house, at(32))
    expect(sent).toMatchObject([
      { to: '+1 555 0101', language: checkInLanguage, text: expect.stringContaining(words) },
    ])
  })

  const notSent = async (change: (patientId: string, drain: string) => Promise<unknown>, hours = 32.1) => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    await change(patientId, drains[0] ?? '')
    const { sent, transports } = memory()
    expect(await deliver(transports, house, at(hours))).toEqual({ sent: 0, errors: [] })
    expect(sent).toEqual([])
    const { lastError, givenUpAt, body } = await letter()
    expect([givenUpAt === null, body]).toEqual([false, '{}'])
    return lastError
  }

  it('is not sent once a report has come', async () => {
    expect(await notSent((patientId, drain) => log(patientId, drain, 32.05))).toBe('a report has come')
  })
  it('is not sent once follow-up has ended', async () => {
    const end = (patientId: string) => endFollowUp(nurse, patientId, { reason: 'died' }, 'k', at(32.05))
    expect(await notSent(end)).toMatch(/follow-up has ended/)
  })
  it('is not sent once the patient has stopped it', async () => {
    const stop = (patientId: string) => stopReminders(stopToken(house.secret, patientId, 'email'), at(32.05))
    expect(await notSent(stop)).toMatch(/stopped/)
  })
  it('is not sent when its time has passed', async () => {
    expect(await notSent(async () => undefined, 36)).toBe('its time has passed')
  })
  it('is not sent where the one after the miss has been given meanwhile', async () => {
    const { patientId, drains } = await person({ reminders: { channel: 'email', at: '14:00' } })
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(37)) // two in the afternoon
    await giveReminders(at(39))
    const { sent, transports } = memory()
    await deliver(transports, house, at(39.1))
    expect([sent.length, (await reminders()).length]).toEqual([1, 2])
    expect((await letter()).lastError).toBe('a later reminder took its place')
  })
  it('waits where quiet hours were set meanwhile', async () => {
    const { patientId, drains } = await person()
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    const quiet = (from: string, until: string) =>
      write((tx) => tx.clinic.updateMany({ data: { quiet: JSON.stringify({ from, until }) } }))
    await quiet('08:00', '10:30')
    const { sent, transports } = memory()
    expect(await deliver(transports, house, at(32.1))).toEqual({ sent: 0, errors: [] })
    expect(await letter()).toMatchObject({ notBefore: iso(33.5), attempts: 0, givenUpAt: null })
    expect(await deliver(transports, house, at(33.5))).toEqual({ sent: 1, errors: [] })
    expect(sent).toHaveLength(1)
  })
  it('goes to nobody but the patient', async () => {
    const [self] = profile().contacts
    if (!self) throw new Error('no contact')
    const { patientId, drains } = await person()
    const contacts = [
      { ...self, mayCall: false },
      { ...self, relation: 'daughter', phone: '+1 555 0102' },
    ]
    const changed = profile({ contacts, reminders: { channel: 'gateway', at: '09:00' } })
    await editPatient(nurse, patientId, { profile: changed, why: 'no calls' }, 'k', at(1))
    await log(patientId, drains[0] ?? '', 9)
    await giveReminders(at(32))
    const { sent, transports } = memory()
    await deliver(transports, house, at(32))
    expect([sent, (await letter()).lastError]).toEqual([
      [],
      'the patient does not agree to be reached by phone',
    ])
  })
})

describe('the stop link', () => {
  it('shows how things stand, stops once, is seen by staff, and staff may turn reminders on again', async () => {
    const { patientId, drains } = await person({ checkInLanguage: 'es' })
    await log(patientId, drains[0] ?? '', 9)
    const token = stopToken(house.secret, patientId, 'email')
    expect(await stopView(token)).toEqual({ language: 'es', clinicPhone: '+1 555 0100', stopped: false })
    expect(await next(patientId)).toBe(iso(32))
    await stopReminders(token, at(20))
    await stopReminders(token, at(21))
    expect(await stopView(token)).toMatchObject({ stopped: true })
    expect(await next(patientId)).toBeNull()
    const versions = await read((tx) =>
      tx.patientVersion.findMany({ where: { patientId }, orderBy: { version: 'asc' } }),
    )
    const ofLink = versions.filter(({ recordedBy }) => recordedBy === 'stop link')
    expect(ofLink).toHaveLength(1)
    expect(JSON.parse(ofLink[0]?.body ?? '').profile.reminders).toEqual({ channel: 'none', at: '09:00' })
    expect(await read((tx) => tx.accessRecord.count({ where: { action: 'stop-reminders' } }))).toBe(1)

    await editPatient(nurse, patientId, { profile: profile(), why: 'asked for them' }, 'again', at(22))
    expect(await next(patientId)).toBe(iso(32))
    expect(await stopView(token)).toMatchObject({ stopped: false })
  })

  it('of one channel does not stop the other', async () => {
    const { patientId, drains } = await person({ reminders: { channel: 'gateway', at: '09:00' } })
    await log(patientId, drains[0] ?? '', 9)
    await stopReminders(stopToken(house.secret, patientId, 'email'), at(20))
    expect(await next(patientId)).toBe(iso(32))
  })

  it('that is not ours stops nothing', async () => {
    const { patientId } = await person()
    const token = stopToken(house.secret, patientId, 'email')
    for (const forged of [
      '',
      token.slice(0, -2),
      stopToken('x'.repeat(32), patientId, 'email'),
      token.replace('email', 'gateway'),
    ]) {
      expect(await stopView(forged)).toBeNull()
      await expect(stopReminders(forged, at(1))).rejects.toMatchObject({ kind: 'link-not-valid' })
    }
  })
})

it('reads the record of those who are due, and of nobody else; no query reads a whole table', async () => {
  const early = await person()
  await log(early.patientId, early.drains[0] ?? '', 9)
  for (let i = 0; i < 3; i++) {
    const later = await person({ reminders: { channel: 'email', at: '11:00' } })
    await log(later.patientId, later.drains[0] ?? '', 10)
  }
  await closeStore()
  const file = path.join(database.folder, 'queries.log')
  vi.stubEnv('OUTFLOW_TEST_MODE', '1')
  vi.stubEnv('OUTFLOW_QUERY_LOG', file)
  expect(await giveReminders(at(32))).toEqual({ given: 1, errors: [] })
  await closeStore()

  const queries = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line))
  const ofRecord = queries.filter(({ sql }) =>
    /FROM "(Report|Reading|StaffEvent|CarePlan|Drain|Patient)"/.test(sql),
  )
  expect(ofRecord.length).toBeGreaterThan(3)
  expect(ofRecord.filter(({ params }) => !params.includes(early.patientId))).toEqual([])
  const db = new Database(database.file, { readonly: true })
  const scans = queries
    .filter(({ sql }) => /^\s*(SELECT|UPDATE)/i.test(sql))
    .flatMap(({ sql }) => {
      const blanks = Array((sql.match(/\?/g) ?? []).length).fill(null)
      return db.prepare(`EXPLAIN QUERY PLAN ${sql}`).all(...blanks) as { detail: string }[]
    })
    .filter(({ detail }) => /^SCAN (?!CONSTANT|\()/.test(detail))
  db.close()
  expect(scans).toEqual([])
})
