import { beforeEach, describe, expect, it } from 'vitest'
import { receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import {
  readPatientPage,
  readWorklist,
  recordCallback,
  recordStaffEvent,
  sweep,
  takeRow,
} from '../../lib/worklist/index.ts'
import {
  at,
  CLINIC,
  iso,
  nurse,
  openClinics,
  otherNurse,
  patient,
  stranger,
  wellReport,
} from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const send = (patientId: string, hours: number, body: unknown) =>
  receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: patientId, by: null, key: `k${++count}`, body },
    at(hours),
  )
const symptoms = (drain: string, hours: number, change: object = {}, own: object = {}) => ({
  symptoms: {
    at: iso(hours),
    temperatureC: 36.7,
    ...own,
    drains: [{ drain, position: 'in-place', leak: false, draining: true, ...change }],
  },
})
const rows = async (hours: number) => (await readWorklist(nurse, at(hours))).rows
const flags = async (hours: number) => (await rows(hours)).flatMap((row) => row.flags)
const reached = (closes: string[], lookAgainAt?: number) => ({
  outcome: 'reached',
  spokenTo: 'patient',
  agreed: ['clinic-visit'],
  closes,
  ...(lookAgainAt === undefined ? {} : { lookAgainAt: iso(lookAgainAt) }),
})
const call = (patientId: string, hours: number, body: unknown, by = nurse, key = `c${++count}`) =>
  recordCallback(by, patientId, body, key, at(hours))

describe('a callback', () => {
  it('that reached somebody closes what it names, and the row leaves', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { leak: true }))
    const [flag] = await flags(1)
    await takeRow(nurse, patientId, at(1))
    await call(patientId, 1.1, reached([flag?.id ?? ''], 20))
    expect(await rows(1.2)).toEqual([])
    expect(await read((tx) => tx.staffEvent.findMany())).toMatchObject([
      { type: 'flag-closed', code: 'leak', drainId: drain, at: iso(1.1), recordedBy: nurse.id },
    ])
    expect(await read((tx) => tx.hold.count())).toBe(0)
  })

  it('brings the row back at its time to look again, by the sweep alone', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { leak: true }))
    await call(patientId, 1.1, reached([(await flags(1))[0]?.id ?? ''], 6))
    await send(patientId, 2, symptoms(drain, 2))
    expect((await sweep(at(5.9))).assessed).toBe(0)
    expect(await rows(5.9)).toEqual([])
    await sweep(at(6))
    expect(await rows(6)).toMatchObject([
      { patientId, urgency: 'within-1h', actBy: iso(7), flags: [{ code: 'leak', state: 'owed' }] },
    ])
  })

  it('that closes what still holds within an hour needs a time to look again', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { leak: true }))
    const [flag] = await flags(1)
    await expect(call(patientId, 2, reached([flag?.id ?? '']))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field: 'lookAgainAt' }],
    })
    expect(await read((tx) => tx.callback.count())).toBe(0)
  })

  it.each([
    ['in the past', 1],
    ['of a far day', 24 * 40],
  ])('takes no time to look again %s', async (_name, hours) => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { leak: true }))
    const [flag] = await flags(1)
    await expect(call(patientId, 2, reached([flag?.id ?? ''], hours))).rejects.toMatchObject({
      faults: [{ field: 'lookAgainAt' }],
    })
  })

  it.each(['no-answer', 'left-message', 'wrong-number'])(
    'of %s is not speaking: the row stays, and the attempt counts',
    async (outcome) => {
      const { patientId, drain } = await patient()
      await send(patientId, 1, symptoms(drain, 1, { leak: true }))
      await send(patientId, 2, symptoms(drain, 2))
      await call(patientId, 3, { outcome })
      await call(patientId, 4, { outcome, lookAgainAt: iso(9) })
      expect(await rows(5)).toMatchObject([
        { attempts: 2, flags: [{ code: 'leak', state: 'owed', spokenAt: null }] },
      ])
      await call(patientId, 6, reached([]))
      expect(await rows(7)).toEqual([])
    },
  )

  it('to a patient without a flag can promise to look again: the row comes at that time and leaves with the next call', async () => {
    const { patientId } = await patient()
    await call(patientId, 1, reached([], 9))
    expect(await rows(8.9)).toEqual([])
    expect((await sweep(at(9))).assessed).toBe(1)
    expect(await rows(9)).toMatchObject([
      { patientId, urgency: 'within-24h', flags: [], part: 'clinical', since: iso(9) },
    ])
    await call(patientId, 10, reached([]))
    expect(await rows(10)).toEqual([])
  })

  it('is not for a row that somebody else has', async () => {
    const { patientId } = await patient()
    await takeRow(nurse, patientId, at(1))
    await expect(call(patientId, 1.1, { outcome: 'no-answer' }, otherNurse)).rejects.toMatchObject({
      kind: 'taken',
    })
  })

  it('repeated under its key is one callback with one answer', async () => {
    const { patientId } = await patient()
    const [first, second] = await Promise.all(
      [1, 2].map(() => call(patientId, 1, { outcome: 'no-answer' }, nurse, 'same')),
    )
    expect(second).toEqual(first)
    expect(await read((tx) => tx.callback.count())).toBe(1)
    await expect(call(patientId, 1, { outcome: 'left-message' }, nurse, 'same')).rejects.toMatchObject({
      kind: 'key-reused',
    })
  })

  it('of another clinic is refused', async () => {
    const { patientId } = await patient()
    await expect(call(patientId, 1, { outcome: 'no-answer' }, stranger)).rejects.toMatchObject({
      kind: 'not-found',
    })
  })

  it('stands on the patient’s page with who, when and why', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { leak: true }))
    const [flag] = await flags(1)
    await call(patientId, 2, reached([flag?.id ?? ''], 20))
    const page = await readPatientPage(otherNurse, patientId, at(3))
    expect(page.callbacks).toMatchObject([
      { by: nurse.name, outcome: 'reached', agreed: ['clinic-visit'], closes: [flag?.id] },
    ])
    expect(page.flags).toMatchObject([
      { state: 'closed', closedBy: nurse.name, closedAt: iso(2), lookAgainAt: iso(20) },
    ])
    expect(page.steps.map(({ kind, by }) => [kind, by])).toEqual([
      ['opened', null],
      ['closed', nurse.name],
    ])
    expect(
      await read((tx) =>
        tx.accessRecord.count({ where: { action: 'view-patient', patientId, staffId: otherNurse.id } }),
      ),
    ).toBe(1)
  })
})

describe('a drain that is out', () => {
  it('is closed by a call for the rules too, and comes back with a new report', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { position: 'out' }))
    await call(
      patientId,
      1.1,
      reached(
        (await flags(1)).map(({ id }) => id),
        24,
      ),
    )
    expect(await rows(2)).toEqual([])
    await send(patientId, 3, symptoms(drain, 3, { position: 'out' }))
    expect(await rows(3)).toMatchObject([
      { urgency: 'at-once', flags: [{ code: 'drain-out', state: 'open', actBy: iso(3) }] },
    ])
  })

  it('that was replaced leaves the call owed until somebody has spoken to the patient', async () => {
    const { patientId, drain } = await patient()
    await send(patientId, 1, symptoms(drain, 1, { position: 'out' }))
    await recordStaffEvent(nurse, patientId, { at: iso(2), drain, type: 'replaced' }, 'e1', at(2.5))
    expect(await flags(3)).toMatchObject([{ code: 'drain-out', state: 'owed', urgency: 'at-once' }])
    await call(patientId, 4, reached([]))
    expect(await rows(4)).toEqual([])
  })
})

describe('a staff event', () => {
  it('keeps when it was true beside when it was recorded and by whom', async () => {
    const { patientId, drain } = await patient()
    await recordStaffEvent(
      nurse,
      patientId,
      { at: iso(-5), drain, type: 'exchanged', note: 'size 10' },
      'e1',
      at(2),
    )
    expect(await read((tx) => tx.staffEvent.findFirst())).toMatchObject({
      at: iso(-5),
      recordedAt: iso(2),
      recordedBy: nurse.id,
      note: 'size 10',
    })
    const page = await readPatientPage(nurse, patientId, at(1))
    expect(page.record.staffEvents).toEqual([])
    expect((await readPatientPage(nurse, patientId, at(3))).record.staffEvents).toMatchObject([
      { type: 'exchanged' },
    ])
  })

  it.each([
    ['of a time to come', { at: iso(9), type: 'removed' }, 'at'],
    ['of a drain that is not theirs', { at: iso(1), type: 'removed', drain: 'd9' }, 'drain'],
    ['that closes a flag', { at: iso(1), type: 'flag-closed' }, 'type'],
  ])('%s is refused', async (_name, change, field) => {
    const { patientId, drain } = await patient()
    await expect(recordStaffEvent(nurse, patientId, { drain, ...change }, 'e', at(2))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })

  it('of removal takes the drain from the page of the patient and from the worklist', async () => {
    const { patientId, drain } = await patient()
    await recordStaffEvent(nurse, patientId, { at: iso(1), drain, type: 'removed' }, 'e', at(1))
    expect((await sweep(at(24 * 30))).failed).toBe(0)
    expect(await rows(24 * 30)).toEqual([])
    await send(patientId, 2, wellReport(drain, 2))
    expect(await read((tx) => tx.report.count())).toBe(1)
  })
})
