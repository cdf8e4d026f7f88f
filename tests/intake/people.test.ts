import { beforeEach, describe, expect, it } from 'vitest'
import { emptyProfile, type Profile } from '../../lib/domain/profile.ts'
import { editPatient, enrol, readAlike } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { patientVersionsOf } from '../../lib/store/patient-versions.ts'
import { patientById } from '../../lib/store/patients.ts'
import { composeRecord } from '../../lib/store/record.ts'
import { at, enrolment, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const self = {
  name: 'Ines Farrow',
  relation: 'self',
  phone: '+1 555 0107',
  email: 'ines@example.com',
  mayCall: true,
  mayVoicemail: false,
  mayDisclose: 'everything' as const,
}
const daughter = { ...self, name: 'Ada Farrow', relation: 'daughter' }
const profile: Profile = {
  ...emptyProfile,
  contacts: [self, daughter],
  checkInLanguage: 'es',
  anticoagulant: true,
  allergies: 'iodine contrast',
  thermometer: true,
  teachBack: false,
  reminders: { channel: 'email', at: '08:30' },
}

describe('what enrolment keeps of a person', () => {
  it('is the whole profile, as version 1, and the first contact’s number', async () => {
    const body = enrolment({ profile, usual: { pain: 2, general: ['dizzy'] } })
    const { patientId } = await enrol(nurse, body, 'k', at(0))
    const kept = await read((tx) => patientById(tx, patientId))
    expect(kept).toMatchObject({ profile, phone: '+1 555 0107', usual: { pain: 2, general: ['dizzy'] } })
    const { rows } = await read((tx) => patientVersionsOf(tx, patientId))
    expect(rows).toMatchObject([
      { version: 1, why: 'as enrolled', recordedBy: nurse.id, body: { name: body.name, profile } },
    ])
  })

  it('holds what was ordered beside what the rules read', async () => {
    const details = {
      vessel: 'bag',
      flushAt: ['09:00', '21:00'],
      dressingType: 'film',
      removalPlan: 'after the stent',
      lengthMarkCm: 12.5,
      frenchSize: 8,
      markMl: 25,
    }
    const { patientId } = await enrol(nurse, enrolment({}, details), 'k', at(0))
    expect(await read((tx) => tx.carePlan.findFirstOrThrow({ where: { patientId } }))).toMatchObject({
      vessel: 'bag',
      flushAt: '["09:00","21:00"]',
      dressingType: 'film',
      removalPlan: 'after the stent',
      markMl: 25,
    })
    const composed = await read((tx) => composeRecord(tx, patientId, at(1)))
    expect(composed?.drains[0]).toMatchObject({ lengthMarkCm: 12.5, frenchSize: 8 })
  })

  it('an exchange that is booked becomes a visit', async () => {
    const { patientId } = await enrol(nurse, enrolment({}, { exchangeBookedFor: iso(24 * 20) }), 'k', at(0))
    const composed = await read((tx) => composeRecord(tx, patientId, at(1)))
    expect(composed?.record.drains[0]?.exchangeBookedFor).toBe(iso(24 * 20))
  })

  it.each([
    ['a first contact who is not the patient', { contacts: [daughter] }, 'profile.contacts[0].relation'],
    ['two who are the patient', { contacts: [self, self] }, 'profile.contacts[1].relation'],
    [
      'a reminder by e-mail without an address',
      { contacts: [{ ...self, email: null }] },
      'profile.reminders.channel',
    ],
  ])('refuses %s', async (_name, change, field) => {
    const body = enrolment({ profile: { ...profile, ...change } })
    await expect(enrol(nurse, body, 'k', at(0))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })

  it('refuses a booking that has passed', async () => {
    await expect(
      enrol(nurse, enrolment({}, { exchangeBookedFor: iso(-1) }), 'k', at(0)),
    ).rejects.toMatchObject({ faults: [{ field: 'drains[0].exchangeBookedFor' }] })
  })
})

describe('somebody alike', () => {
  const first = { name: 'María López García', birthDate: '1961-06-05', recordNumber: 'A-1' }
  const second = { name: 'Lopez Maria', birthDate: '1961-05-06', recordNumber: 'A-2' }

  it('is pointed out, with two identifiers, and the look stands in the access record', async () => {
    const { patientId } = await enrol(nurse, enrolment(first), 'k1', at(0))
    const alike = await readAlike(nurse, { name: second.name, birthDate: second.birthDate }, at(1))
    expect(alike).toEqual([{ patientId, ...first, followUpEndedAt: null }])
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'find-patients' } }))
    expect(seen.map(({ what }) => what)).toEqual([`shown as alike at enrolment: ${patientId}`])
    expect(await readAlike(stranger, { name: second.name, birthDate: second.birthDate }, at(1))).toEqual([])
  })

  it('is refused, until somebody looked and says that it is another person', async () => {
    const { patientId } = await enrol(nurse, enrolment(first), 'k1', at(0))
    const refused = await enrol(nurse, enrolment(second), 'k2', at(1)).catch((error) => error)
    expect(refused).toMatchObject({
      kind: 'conflict',
      faults: [{ field: 'notSameAs', value: patientId, message: expect.stringContaining('5 Jun 1961, A-1') }],
    })
    expect(await read((tx) => tx.patient.count())).toBe(1)
    expect(await read((tx) => tx.accessRecord.count({ where: { action: 'find-patients' } }))).toBe(1)
    await expect(
      enrol(nurse, enrolment({ ...second, notSameAs: ['another'] }), 'k2', at(1)),
    ).rejects.toMatchObject({ kind: 'conflict' })
    await enrol(nurse, enrolment({ ...second, notSameAs: [patientId] }), 'k2', at(1))
    expect(await read((tx) => tx.patient.count())).toBe(2)
  })

  it('is nobody with another birth date or of another clinic', async () => {
    await enrol(stranger, enrolment(first), 'k1', at(0))
    await enrol(nurse, enrolment(second), 'k2', at(0))
    await enrol(nurse, enrolment({ ...first, birthDate: '1943-11-20' }), 'k3', at(0))
    expect(await read((tx) => tx.patient.count())).toBe(3)
  })
})

describe('a change of details', () => {
  it('adds a version, leaves out what was not given, and says why in the access record', async () => {
    const { patientId } = await patient()
    const change = { name: 'Ada Invented-Hale', phone: '+1 555 0155', why: 'spelling, as in the passport' }
    expect(await editPatient(nurse, patientId, change, 'e', at(1))).toEqual({ version: 2 })
    expect(await editPatient(nurse, patientId, change, 'e', at(2))).toEqual({ version: 2 })
    const kept = await read((tx) => patientById(tx, patientId))
    expect(kept).toMatchObject({
      name: 'Ada Invented-Hale',
      phone: '+1 555 0155',
      timeZone: 'America/Denver',
    })
    const { rows } = await read((tx) => patientVersionsOf(tx, patientId))
    expect(rows.map(({ version, why }) => [version, why])).toEqual([
      [1, 'as enrolled'],
      [2, 'spelling, as in the passport'],
    ])
    const seen = await read((tx) => tx.accessRecord.findFirstOrThrow({ where: { action: 'edit-patient' } }))
    expect(seen.what).toBe('details, version 2 (name, phone): spelling, as in the passport')
  })

  it('keeps the patient and the first contact in step', async () => {
    const { patientId } = await enrol(nurse, enrolment({ profile }), 'k', at(0))
    const kept = () => read((tx) => patientById(tx, patientId))
    await editPatient(
      nurse,
      patientId,
      { name: 'Ines Farrow-Hale', phone: '+1 555 0155', why: 'x' },
      'e1',
      at(1),
    )
    expect((await kept())?.profile?.contacts).toMatchObject([
      { name: 'Ines Farrow-Hale', phone: '+1 555 0155' },
      { name: 'Ada Farrow', phone: '+1 555 0107' },
    ])
    await editPatient(nurse, patientId, { profile, why: 'x' }, 'e2', at(2))
    expect(await kept()).toMatchObject({ name: 'Ines Farrow-Hale', phone: '+1 555 0107' })
    expect((await kept())?.profile?.contacts[0]?.name).toBe('Ines Farrow-Hale')
  })

  it('assesses the patient anew: what is usual is no finding', async () => {
    const { patientId } = await patient(0, { plan: { logEveryHours: 1, dressingEveryHours: 48 } })
    await editPatient(nurse, patientId, { usual: { pain: 8 }, why: 'chronic pain' }, 'e', at(80))
    const state = await read((tx) => tx.patientState.findUniqueOrThrow({ where: { patientId } }))
    expect(state.assessedAt).toBe(iso(80))
    const composed = await read((tx) => composeRecord(tx, patientId, at(81)))
    expect(composed?.record.usual).toEqual({ pain: 8 })
  })

  it('is refused without a reason, for another clinic’s patient, and with a contact that is none', async () => {
    const { patientId } = await patient()
    await expect(editPatient(nurse, patientId, { name: 'B' }, 'e')).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await expect(editPatient(stranger, patientId, { why: 'x' }, 'e')).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(
      editPatient(nurse, patientId, { why: 'x', profile: { ...profile, contacts: [daughter] } }, 'e'),
    ).rejects.toMatchObject({ faults: [{ field: 'profile.contacts[0].relation' }] })
  })
})
