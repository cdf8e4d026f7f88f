import { beforeEach, describe, expect, it } from 'vitest'
import { standardNoAnswer } from '../../lib/domain/no-answer.ts'
import { emptyProfile } from '../../lib/domain/profile.ts'
import { editPatient, receiveReport } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import {
  readNoAnswer,
  readPatientPage,
  readWorklist,
  recordCallback,
  saveNoAnswerRules,
  takeRow,
} from '../../lib/worklist/index.ts'
import { at, CLINIC, chargeNurse, iso, nurse, openClinics, otherNurse, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let count = 0
const drainOut = (patientId: string, drain: string, hours: number, position = 'out') =>
  receiveReport(
    {
      clinicId: CLINIC,
      patientId,
      door: 'check-in',
      source: patientId,
      by: null,
      key: `k${++count}`,
      body: { symptoms: { at: iso(hours), temperatureC: 36.7, drains: [{ drain, position }] } },
    },
    at(hours),
  )
const call = (patientId: string, hours: number, body: object, by = nurse) =>
  recordCallback(by, patientId, body, `c${++count}`, at(hours))
const rowOf = async (hours: number, patientId: string) =>
  (await readWorklist(nurse, at(hours))).rows.find((row) => row.patientId === patientId)
const minute = 1 / 60
const said = { outcome: 'reached', spokenTo: 'patient', agreed: ['self-care'] }

const people = {
  ...emptyProfile,
  contacts: [
    {
      name: 'Ada',
      relation: 'self',
      phone: '555 0100',
      email: null,
      mayCall: true,
      mayVoicemail: true,
      mayDisclose: 'everything',
    },
    {
      name: 'Bea',
      relation: 'daughter',
      phone: '555 0101',
      email: null,
      mayCall: true,
      mayVoicemail: false,
      mayDisclose: 'clinic-name',
    },
  ],
}

describe('a call from a patient without a row', () => {
  it('is recorded as any other, with who was spoken to and how', async () => {
    const { patientId } = await patient()
    const body = { ...said, spokenTo: 'helper', interpreter: true, teachBack: true, direction: 'they-called' }
    await call(patientId, 1, body)
    expect((await readPatientPage(nurse, patientId, at(2))).callbacks).toMatchObject([
      { direction: 'they-called', spokenTo: 'helper', interpreter: true, teachBack: true, contact: null },
    ])
  })
  it.each([
    [{ outcome: 'no-answer', direction: 'they-called' }, 'outcome'],
    [{ ...said, spokenTo: 'interpreter' }, 'spokenTo'],
    [{ outcome: 'no-answer', contact: 'Nobody' }, 'contact'],
  ])('is refused where it cannot be: %o', async (body, field) => {
    const { patientId } = await patient()
    await expect(call(patientId, 1, body)).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })
})

it('a call of old through an interpreter is still read', async () => {
  const { patientId } = await patient()
  await call(patientId, 1, said)
  await read((tx) => tx.callback.updateMany({ data: { spokenTo: 'interpreter' } }))
  expect((await readPatientPage(nurse, patientId, at(2))).callbacks).toMatchObject([
    { spokenTo: 'interpreter' },
  ])
})

it('a lease that ran out mid-call: recorded while nobody else has the row, refused with who has it', async () => {
  const { patientId } = await patient()
  await takeRow(nurse, patientId, at(1))
  await call(patientId, 1.5, { outcome: 'no-answer' })
  await takeRow(otherNurse, patientId, at(2))
  await expect(call(patientId, 2.1, said)).rejects.toThrow(/Taken by Ben Invented/)
})

it('what is at once is not closed by an outcome that does not fit', async () => {
  const { patientId, drain } = await patient()
  await drainOut(patientId, drain, 1)
  const closes = (await rowOf(1, patientId))?.flags.map(({ id }) => id)
  const body = { ...said, closes, lookAgainAt: iso(9) }
  await expect(call(patientId, 2, { ...body, agreed: ['nothing-needed'] })).rejects.toMatchObject({
    faults: [{ field: 'agreed', message: expect.stringContaining('drain out') }],
  })
  await expect(call(patientId, 2, { ...body, lookAgainAt: iso(48) })).rejects.toMatchObject({
    faults: [{ field: 'agreed' }],
  })
  expect(await read((tx) => tx.callback.count())).toBe(0)
  await call(patientId, 2, { ...body, agreed: ['nothing-needed'], note: 'Had looked at the wrong tube.' })
  expect(await rowOf(2, patientId)).toBeUndefined()
})

describe('attempts without an answer', () => {
  it('lead on by the clinic’s rule, close nothing and move no deadline', async () => {
    const { patientId, drain } = await patient()
    await editPatient(nurse, patientId, { profile: people, why: 'asked' }, 'p', at(0.5))
    await drainOut(patientId, drain, 1)
    const actBy = (await rowOf(1, patientId))?.actBy
    expect((await rowOf(1, patientId))?.nextTry).toBeNull()
    const first = await call(patientId, 1, { outcome: 'no-answer' })
    expect(first.nextTry).toEqual({ at: iso(1 + 5 * minute), says: 'Try again at 02:05.' })
    await call(patientId, 1 + 5 * minute, { outcome: 'left-message' })
    await call(patientId, 1 + 10 * minute, { outcome: 'no-answer' })
    expect((await rowOf(1.2, patientId))?.nextTry?.says).toBe(
      'Call Bea (daughter, 555 0101): may be told that the clinic calls; no voicemail.',
    )
    await call(patientId, 1 + 11 * minute, { outcome: 'no-answer', contact: 'Bea' })
    const row = await rowOf(1.3, patientId)
    expect(row).toMatchObject({ actBy, attempts: 4, flags: [{ state: 'open', spokenAt: null }] })
    expect(row?.nextTry?.says).toBe(
      'Tell the person on call; then ask for a welfare check by local protocol.',
    )
    expect((await readPatientPage(nurse, patientId, at(1.3))).nextTry).toEqual(row?.nextTry)
  })

  it('follow the rule that the clinic has set, and the access record says who set it', async () => {
    const { patientId, drain } = await patient()
    expect(await readNoAnswer(chargeNurse)).toMatchObject({ isStandard: true, changedBy: null })
    const rules = { ...standardNoAnswer, 'at-once': { tries: 1, everyMinutes: 5, next: ['welfare-check'] } }
    await saveNoAnswerRules(chargeNurse, rules, 'n', at(0.5))
    expect(await readNoAnswer(chargeNurse)).toMatchObject({
      rules,
      isStandard: false,
      changedBy: chargeNurse.name,
    })
    await drainOut(patientId, drain, 1)
    await call(patientId, 1, { outcome: 'no-answer' })
    expect((await rowOf(1, patientId))?.nextTry?.says).toBe('Ask for a welfare check by local protocol.')
    await saveNoAnswerRules(chargeNurse, standardNoAnswer, 'm', at(2))
    expect(await readNoAnswer(chargeNurse)).toMatchObject({ isStandard: true })
    await expect(
      saveNoAnswerRules(
        chargeNurse,
        { ...rules, 'at-once': { tries: 0, everyMinutes: 5, next: [] } },
        'o',
        at(2),
      ),
    ).rejects.toMatchObject({ faults: [{ field: 'at-once.tries' }] })
  })
})

it('a flag that opens and ends again and again is marked on its row', async () => {
  const { patientId, drain } = await patient()
  const skin = (hours: number, state: string) =>
    receiveReport(
      {
        clinicId: CLINIC,
        patientId,
        door: 'check-in',
        source: patientId,
        by: null,
        key: `k${++count}`,
        body: { dressings: [{ drain, at: iso(hours), found: 'clean', skin: state, changed: true }] },
      },
      at(hours),
    )
  for (const hours of [1, 10, 20]) {
    await skin(hours, 'broken')
    await skin(hours + 1, 'intact')
  }
  await skin(30, 'broken')
  const flag = (await rowOf(31, patientId))?.flags.find(({ code }) => code === 'skin-broken')
  expect(flag).toMatchObject({ flutters: true })
})
